package search

import "strings"

// everyday are words that people use for one another whatever the manual is
// about, in plain English, Spanish and German, one meaning a line. What belongs
// to a trade is said by the manual itself: in its glossary and in what its
// articles are also called.
func everyday(language string) string {
	switch language {
	case englishTag:
		return `
		arrange, place, position, stack, pile, load
		throw away, throw out, dump, discard, dispose, get rid
		try out, trial
		refill, top up
		fix, repair, mend
		faulty, broken, dead, failed, defective
		dirt, muck, gunk, grime, filth, crud, soil
		smell, odour, stink, reek
		froth, lather, foam, suds
		shiny, bright, glossy
		dull, matt, hazy, cloudy, milky, foggy
		loud, noisy, noise
		quiet, silent
		lukewarm, cool, cold
		warm, hot, heat
		weak, poor
		leak, escape, lose
		rag, cloth, wipe
		scratch, scrape, scuff
		stick, glue, cling
		detergent, cleaner, soap, concentrate
		amount, quantity, how much
		ruin, damage, spoil, wreck
		hurt, harm, injure
		rust, corrosion
		part, component, workpiece
		check, inspect, verify
		lid, cover
		hole, bore
		old, worn, spent
		speck, spot, dot, fleck
		skin, layer, film, coat
		crack, split, craze
		fast, quick
		shut down, switch off, turn off
		switch on, turn on, start up
		swallow, drink, ingest
		breathe, inhale
		scald, burn
		splash, spray, spill
		accident, injury, emergency
		dangerous, hazardous, unsafe, hazard
		poisonous, toxic, harmful
		fumes, vapour, mist, steam
		extraction, exhaust, ventilation
		sticky, gummy, tacky
		goo, residue, remains, deposit
		pit, crater, pinhole, pinprick
		stripe, line, band, streak
		ring, circle
		stain, mark, blotch, patch
		powder, dust
		peel, flake, blister
		screech, squeal, scream, howl, whine, whistle
		hum, buzz, drone
		big, large, huge
		small, little, tiny
		bottom, floor, base
		oven, dryer
		screw, bolt, fastener
		pipe, tube
		circuit board, PCB, electronics
		drawing, specification, spec
		customer, client
		log, record, write down
		every day, daily, each day, every morning
		every week, weekly, once a week
		every month, monthly, once a month
		every year, yearly, annual
		maintenance, service, upkeep
		teach, train, lesson, course
		trainee, apprentice, learner, beginner
		demo, demonstration, experiment
		calculate, calculator, sum, work out, reckon
		price, cost, money
		electricity, energy
		night, overnight
		alone, single, nobody else, on my own, by myself
		doctor, medical, hospital, ambulance
		goggles, glasses, eye protection
		itch, rash, sore, raw, irritated
		germ, bacteria, microbe
		sewer, drain, sink
		petrol, gasoline
		fire, ignite, flame
		radioactive, radiation, geiger counter
		reject, fail, fault
		remove, take off, get off, strip
		fuse, breaker, trip, cut-out
		heater, heating element
		thermometer, probe, sensor
		strainer, filter
		crane, hoist
		threads, tapped hole
		swarf, chips, shavings, turnings
		marker, felt tip, pen, ink
		sticker, label
		different, difference, changed
		edition, issue, version
		manual, handbook, book
		allowed, permitted, may
		jig, fixture, rack, holder
		wrong, incorrect
		wear, erosion, eaten
		colleague, workmate, somebody, someone
		faint, collapse, unconscious, pass out
		lungs, breathing, throat
		touch, reach, grab
		forbidden, prohibited, never, must not
		chemical, product, substance
		combine, mix, blend
		pit, manhole, sump
		first aid, help, rescue
		ill, sick, unwell, nausea
		face, eye
		arm, leg, foot, skin
		isolate, disconnect, unplug
		padlock, lock
		enter, get into, climb in, go inside
		shoe, boot, clothing, apron
		finished, used up, exhausted
		come off, loose, lift, detach
		weep, drip, leak
		overflow, run over, spill over
		list, checklist
		disagree, differ, mismatch
		belt, skimmer
		fan, blower
		wet, damp, moist
		jam, seize, stuck
		hang, suspend, hook
		slippery, slimy, slick
		burnt, charred, baked
		gritty, grit, abrasive
		writing, lettering, print
		worse, weaker, declined
		hospital, medical
		inspector, auditor, authority, regulator
		gas, vapour, fumes
	`
	case "de":
		return `
		wegwerfen, entsorgen, wegschütten, ablassen
		auffüllen, nachfüllen, ergänzen
		reparieren, richten, instandsetzen
		kaputt, defekt, ausgefallen, gestört
		Schmutz, Dreck, Verschmutzung, schmutzig, dreckig
		Geruch, riecht, stinkt, Gestank
		glänzend, blank, poliert
		matt, stumpf, trüb, milchig, neblig
		laut, Lärm, Geräusch
		leise, still
		lauwarm, kalt, kühl
		heiß, warm, Wärme, Hitze
		schwach, dünn
		undicht, tropft, leckt, läuft aus
		Lappen, Tuch, Lumpen
		Kratzer, zerkratzt, verkratzt
		kleben, klebt, klebrig, haftet
		Reiniger, Waschmittel, Seife, Konzentrat, Chemie
		Menge, wieviel
		verderben, beschädigen, kaputtmachen
		Verletzung, verletzt, Unfall
		Schaum, schäumt
		Rost, rostig, rostet
		Fett, fettig, schmierig
		Wanne, Becken, Bad, Tank
		Korb, Gestell
		nass, feucht
		klemmt, fest, hängt
		entgasen, Entgasung
		Handschuhe, Schutzhandschuhe
		Brille, Schutzbrille, Korbbrille
		`
	case "es":
		return `
		tirar, desechar, eliminar, botar, verter
		rellenar, reponer, completar
		arreglar, reparar
		averiado, roto, estropeado, dañado, falla
		suciedad, mugre, porquería, sucio
		olor, huele, apesta, peste
		brillante, pulido
		mate, opaco, turbio, velado, lechoso
		ruido, ruidoso, fuerte
		silencio, callado
		tibio, frío
		caliente, calor, calentar
		débil, flojo
		fuga, gotea, pierde, escape
		trapo, paño
		rayar, arañar, rasguño
		pegar, adherir, pegajoso
		detergente, limpiador, jabón, concentrado
		cantidad, cuánto
		estropear, dañar, arruinar
		herir, lesión, daño, accidente
		óxido, herrumbre, oxidar, corrosión
		pieza, componente, parte
		revisar, comprobar, verificar, controlar, revisión
		tapa, cubierta
		agujero, orificio, taladro
		viejo, gastado, agotado, usado
		punto, mancha, mota
		capa, película
		grieta, fisura, rajadura
		rápido, pronto
		apagar, desconectar, parar
		encender, conectar, arrancar
		tragar, beber, ingerir
		respirar, inhalar
		quemadura, escaldadura
		salpicar, salpicadura, derrame
		peligroso, peligro, riesgo
		tóxico, venenoso, nocivo
		vapor, humo, niebla, emanación
		extracción, ventilación, aspiración
		polvo, talco
		pelar, desprender, descascarar
		raya, franja, banda, línea
		grande, gran
		pequeño, chico
		fondo, suelo, piso
		tornillo, perno
		tubo, tubería
		plano, especificación
		cliente, comprador
		anotar, registrar, apuntar
		cada día, diario, todos los días, cada mañana
		cada semana, semanal
		cada mes, mensual
		mantenimiento, servicio
		enseñar, formación, lección, curso
		aprendiz, principiante
		demostración, experimento
		calcular, cálculo, calculadora
		precio, coste, costo, dinero
		electricidad, energía, luz
		noche, nocturno
		solo, a solas
		médico, hospital, ambulancia
		gafas, lentes
		picor, sarpullido, irritación, escozor
		bacteria, germen, microbio
		desagüe, alcantarilla, drenaje
		gasolina, bencina
		fuego, incendio, llama
		radiactivo, radiación
		quitar, retirar, sacar, eliminar
		calefactor, resistencia
		termómetro, sonda, sensor
		cesta, canasta, canastilla
		cuba, tanque, tina, depósito
		baño, líquido, solución
		viruta, rebaba
		rotulador, marcador, tinta
		etiqueta, pegatina
		sarro, cal, incrustación
		grasa, aceite, grasiento, aceitoso
		goma, caucho
		espuma, burbujas
		permitido, autorizado, se puede
		manual, libro
		cambiar, renovar, sustituir
		limpiar, lavar
		enjuagar, aclarar
		secar, secado, secador
		guante, guantes
		ojo, ojos
		mano, manos
		candado, bloqueo
		compañero, alguien, persona, trabajador
		desmayar, inconsciente, colapsar
		pulmones, respirar, garganta
		tocar, meter, alcanzar
		prohibido, nunca, no se debe
		producto, químico, sustancia
		mezclar, combinar
		ayuda, primeros auxilios, rescate
		enfermo, mareado, náusea
		cara, ojo
		brazo, pierna, pie, piel
		desconectar, aislar, bloquear
		corriente, electricidad, tensión
		entrar, meterse
		agotado, gastado, terminado, viejo
		lista, comprobaciones
		hinchado, crecido, más grande
		despegar, levantar, soltar
		rebosar, derramar, desbordar
		gas, vapor, humo
		mojado, húmedo
		resbaladizo, baboso
		quemado, carbonizado
		polvo, hollín
		malla, alambre, rejilla
		residuo, resto, depósito
		cuánto tiempo, minutos, duración
	`
	}
	return ""
}

// everydayOf gives those of a language.
func everydayOf(tag string) (all []Synonym) {
	general, _, _ := strings.Cut(strings.ToLower(tag), "-")
	for line := range strings.Lines(everyday(general)) {
		if words := strings.Split(strings.TrimSpace(line), ", "); len(words) > 1 {
			all = append(all, Synonym{Words: words})
		}
	}
	return all
}
