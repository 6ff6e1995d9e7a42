# shellcheck shell=bash
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# Sourced by tests/run: a PostgreSQL server for the length of one run. It listens on 127.0.0.1
# only, on a port that was free; its data, socket and password live in a temporary folder. It
# does not sync to disk: what it keeps is thrown away.
#
#   postgres_start   starts it; exports RAMPLIGHT_TEST_PG and, for the password, PGPASSFILE
#   postgres_stop    stops it and removes the folder; safe to call at any time

postgres_home=
postgres_bin=/usr/lib/postgresql/15/bin

# The server refuses to run as root: then the account that its package made runs it.
postgres_as_owner() {
    if [[ $(id -u) -eq 0 ]]; then
        (cd "$postgres_home" && exec runuser -u postgres -- "$@")
    else
        "$@"
    fi
}

postgres_free_port() {
    python3 -c 'import socket
s = socket.socket()
s.bind(("127.0.0.1", 0))
print(s.getsockname()[1])'
}

postgres_start() {
    local password port attempt
    postgres_home=$(mktemp -d "${TMPDIR:-/tmp}/ramplight-pg.XXXXXX")
    password=$(od -An -N16 -tx1 /dev/urandom | tr -d ' \n')
    (umask 077 && printf '%s\n' "$password" >"$postgres_home/password")
    if [[ $(id -u) -eq 0 ]]; then
        chown -R postgres: "$postgres_home"
    fi
    postgres_as_owner "$postgres_bin/initdb" --pgdata "$postgres_home/data" --username ramplight \
        --pwfile "$postgres_home/password" --auth scram-sha-256 --encoding UTF8 \
        --locale C.UTF-8 --no-sync >"$postgres_home.log" 2>&1 ||
        { cat "$postgres_home.log" >&2; return 1; }

    # Somebody else may take the port between the question and the start: ask again.
    for attempt in 1 2 3 4 5; do
        port=$(postgres_free_port)
        if postgres_as_owner "$postgres_bin/pg_ctl" start --wait --silent \
            --pgdata "$postgres_home/data" --log "$postgres_home/log" \
            --options "-c listen_addresses=127.0.0.1 -c port=$port \
                -c unix_socket_directories=$postgres_home -c fsync=off \
                -c synchronous_commit=off -c full_page_writes=off -c max_connections=50 \
                -c log_min_messages=warning" >>"$postgres_home.log" 2>&1; then
            break
        fi
        if [[ $attempt -eq 5 ]]; then
            cat "$postgres_home.log" "$postgres_home/log" >&2
            return 1
        fi
    done

    # libpq finds the password by itself, so that no connection string has to carry it.
    PGPASSFILE=$(mktemp "${TMPDIR:-/tmp}/ramplight-pgpass.XXXXXX")
    export PGPASSFILE
    echo "127.0.0.1:$port:*:ramplight:$password" >"$PGPASSFILE"
    psql --quiet --no-psqlrc --host 127.0.0.1 --port "$port" --username ramplight \
        --dbname postgres --command 'create database ramplight_test'
    export RAMPLIGHT_TEST_PG="host=127.0.0.1 port=$port dbname=ramplight_test user=ramplight"
}

postgres_stop() {
    if [[ -z $postgres_home ]]; then
        return 0
    fi
    local pid=
    if [[ -f $postgres_home/data/postmaster.pid ]]; then
        pid=$(head -n 1 "$postgres_home/data/postmaster.pid")
    fi
    if [[ -n $pid ]] && kill -0 "$pid" 2>/dev/null; then
        # Immediate shutdown; the folder goes once the process has.
        kill -QUIT "$pid" 2>/dev/null || true
        timeout 20 tail --pid="$pid" -f /dev/null || kill -KILL "$pid" 2>/dev/null || true
    fi
    rm -rf -- "$postgres_home" "$postgres_home.log"
    if [[ -n ${PGPASSFILE:-} ]]; then
        rm -f -- "$PGPASSFILE"
    fi
    postgres_home=
    unset RAMPLIGHT_TEST_PG PGPASSFILE
}
