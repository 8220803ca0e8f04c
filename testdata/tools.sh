#!/bin/sh
# Installs what the tests need and this machine lacks: Chromium, Firefox and ssh-keygen from the system's packages, test tools from npm.
set -eu

# need PROGRAM PACKAGE: a program on the PATH, from a package of Debian's where it is not there yet.
need() {
    if command -v "$1" >/dev/null 2>&1; then
        echo "$1 is here."
        return
    fi
    if ! command -v apt-get >/dev/null 2>&1; then
        echo "The tests need $1, which is not on this machine, and there is no apt-get to install it with. Install it and run make test again." >&2
        exit 1
    fi
    if [ "$(id -u)" != 0 ]; then
        echo "The tests need $1. Install it with: sudo apt-get install $2. Then run make test again." >&2
        exit 1
    fi
    echo "Installing $2…"
    if [ -z "${updated:-}" ]; then
        apt-get update -qq
        updated=yes
    fi
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$2" >/dev/null
}

need chromium chromium
need firefox-esr firefox-esr
need ssh-keygen openssh-client
for program in node npm; do
    if ! command -v "$program" >/dev/null 2>&1; then
        echo "The tests need $program (Node.js 20 or newer), which is not on this machine. Install it and run make test again." >&2
        exit 1
    fi
done
cd "$(dirname "$0")/npm"
if [ ! -f node_modules/.package-lock.json ] || [ package-lock.json -nt node_modules/.package-lock.json ]; then
    echo "Installing the npm tools…"
    npm ci --no-fund --no-audit --loglevel=error
else
    echo "The npm tools are here."
fi
