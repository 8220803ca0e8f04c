#!/bin/sh
# Installs what the tests need and this machine lacks: Chromium, Firefox, ssh-keygen and what reads PDF documents from the system's packages, test tools from npm;
# and, where that can be had, a web server and what fills an object store.
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

# may PROGRAM PACKAGE [service]: a program without which some tests are skipped, and say so. A package that brings a service is installed only where the
# system has been told to start none by itself: nobody wants a web server to begin because of tests.
may() {
    if command -v "$1" >/dev/null 2>&1 || [ -x "/usr/sbin/$1" ]; then
        echo "$1 is here."
        return
    fi
    quiet=yes
    if [ "${3:-}" = service ] && { [ ! -x /usr/sbin/policy-rc.d ] || /usr/sbin/policy-rc.d "$1" start >/dev/null 2>&1; }; then
        quiet=no
    fi
    if [ "$quiet" = yes ] && command -v apt-get >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; then
        echo "Installing $1…"
        if { [ -n "${updated:-}" ] || apt-get update -qq; } && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$2" >/dev/null; then
            updated=yes
            return
        fi
    fi
    echo "The tests that use $1 are skipped. To have them run, install it: apt-get install $2"
}

need chromium chromium
need firefox-esr firefox-esr
need ssh-keygen openssh-client
need pdftotext poppler-utils
need qpdf qpdf
may openssl openssl
may nginx nginx service
may rclone rclone
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
