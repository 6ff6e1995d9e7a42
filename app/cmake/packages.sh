# shellcheck shell=bash
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# Sourced by app/run, tests/run and .ci/run: installs the Debian packages that are missing, and says how
# many compilers may work at once.
# Everything said here goes to standard error.

# The packages of the given groups in packages.txt, one a line.
ramplight_packages_of() {
    local here
    here=$(dirname "${BASH_SOURCE[0]}")
    awk -v groups=" $* " '$1 !~ /^#/ && NF && index(groups, " " $1 " ") { print $2 }' \
        "$here/packages.txt" | sort -u
}

# Those of them that are not installed.
ramplight_missing_of() {
    local package
    while read -r package; do
        if [[ $(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null) != installed ]]; then
            echo "$package"
        fi
    done < <(ramplight_packages_of "$@")
}

# ramplight_need GROUP...: afterwards everything in these groups is installed, or the script has
# ended with code 77 and one command for somebody who may install.
ramplight_need() {
    if ! command -v dpkg-query apt-get >/dev/null; then
        echo "No apt here: not Debian. Install by hand what stands in app/cmake/packages.txt." >&2
        return 0
    fi
    local -a missing as_root=() install
    mapfile -t missing < <(ramplight_missing_of "$@")
    if [[ ${#missing[@]} -eq 0 ]]; then
        return 0
    fi
    echo "Missing Debian packages: ${missing[*]}" >&2

    if [[ $(id -u) -ne 0 ]]; then
        # sudo may ask for a password only where somebody can type it.
        if command -v sudo >/dev/null && { [[ -t 0 ]] || sudo -n true 2>/dev/null; }; then
            as_root=(sudo)
        else
            echo "Neither root nor sudo: have somebody run this, then start again:" >&2
            echo "    sudo apt-get install --no-install-recommends ${missing[*]}" >&2
            exit 77
        fi
    fi
    install=("${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y
        -o DPkg::Lock::Timeout=300 -o Acquire::Retries=3
        --no-install-recommends --no-upgrade install "${missing[@]}")

    # The package index is fetched only where it does not know a package, or is out of date.
    local fetched=no package
    for package in "${missing[@]}"; do
        if ! apt-cache show --no-all-versions "$package" >/dev/null 2>&1; then
            echo "Running:${as_root:+ sudo} apt-get update" >&2
            "${as_root[@]}" apt-get -q -o Acquire::Retries=3 update </dev/null >&2
            fetched=yes
            break
        fi
    done
    echo "Running:${as_root:+ sudo} apt-get install --no-install-recommends ${missing[*]}" >&2
    if ! "${install[@]}" </dev/null >&2; then
        if [[ $fetched == yes ]]; then
            return 1
        fi
        echo "Running:${as_root:+ sudo} apt-get update, then the same again" >&2
        "${as_root[@]}" apt-get -q -o Acquire::Retries=3 update </dev/null >&2
        "${install[@]}" </dev/null >&2
    fi
}

# How many compilers at once: as many as there are cores, and no more than find their 1.5 GB of memory.
ramplight_jobs() {
    local cores memory fit
    cores=$(nproc)
    memory=$(awk '/^MemAvailable:/ { print $2 }' /proc/meminfo)
    fit=$((${memory:-0} / (1536 * 1024)))
    if [[ $fit -lt 1 ]]; then
        fit=1
    fi
    echo "${CMAKE_BUILD_PARALLEL_LEVEL:-$((fit < cores ? fit : cores))}"
}
