// Prints, as JSON, properties of water and moist air from two general-purpose libraries of the npm registry, for the test that
// compares them with ours. The folder with the libraries is the first argument.
"use strict";
const fs = require("fs"), path = require("path"), vm = require("vm");
const from = name => path.resolve(process.argv[2], "node_modules", name);

const page = {};
page.window = page; // neutriumjs expects a page's window
vm.runInContext(fs.readFileSync(path.join(from("neutriumjs.thermo.iapws97"), "dist", "neutriumJS.thermo.IAPWS97.pt.min.js"), "utf8"), vm.createContext(page));
const air = require(from("psychrolib"));
air.SetUnitSystem(air.SI);

const water = [], moist = [], pressure = [];
for (let t = 1; t < 100; t++) {
  const w = page.NeutriumJS.thermo.IAPWS97.PT.solve(0.101325, t + 273.15);
  water.push({ t, density: w.rho, heat: w.cp, viscosity: w.mu, conductivity: w.k, tension: w.sig, vapour: air.GetSatVapPres(t) });
}
for (let t = 5; t <= 120; t += 5) {
  for (const humidity of [0.002, 0.005, 0.01]) {
    if (humidity < 0.98 * air.GetHumRatioFromRelHum(t, 1, 101325) || t > 99) {
      moist.push({ t, humidity, wet: air.GetTWetBulbFromHumRatio(t, humidity, 101325) });
    }
  }
}
for (let z = -400; z <= 4000; z += 200) pressure.push({ z, pascal: air.GetStandardAtmPressure(z) });
console.log(JSON.stringify({ water, moist, pressure }));
