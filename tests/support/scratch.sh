# shellcheck shell=bash
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# Sourced by tests/run and .ci/run.

# Gives the tests a temporary folder in memory where there is room for it: they wait for the disk
# longer than they reckon (20 s and 7 s for a play of the demo workshop on a busy disk). A killed
# program leaves the same files there; what only a disk can do is the business of the benches.
scratch_in_memory() {
    local free
    free=$(df --output=avail -k /dev/shm 2>/dev/null | tail -n 1)
    if [[ -w /dev/shm && ${free:-0} -ge $((2 * 1024 * 1024)) ]]; then
        export TMPDIR=/dev/shm
    fi
}

# Names a new folder for what the programs of one run make once for all of them; what Qt makes of each
# QML file is kept there, too.
shared_folder() {
    RAMPLIGHT_SHARED=$(mktemp -d "${TMPDIR:-/tmp}/ramplight-shared-XXXXXX")
    export RAMPLIGHT_SHARED
    export QML_DISK_CACHE_PATH=$RAMPLIGHT_SHARED/qml
    mkdir "$QML_DISK_CACHE_PATH"
}

shared_folder_remove() {
    if [[ -n ${RAMPLIGHT_SHARED:-} ]]; then
        rm -rf "$RAMPLIGHT_SHARED"
    fi
}
