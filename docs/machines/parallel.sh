#!/usr/bin/env bash
# One share of the jobs to each of several processes or hosts, with GNU parallel.
#
# usage: parallel.sh JOBS OUT SHARES
# env:   HOSTS  file with a host a line, as GNU parallel reads it (`:` is this machine); JOBS and OUT must be
#               the same paths on all of them. Without it two shares at a time run on this machine.
# exit:  0 all good, else how many shares were refused or failed; a second call takes up what is missing
set -eu
jobs=$1 out=$2 shares=$3
seq 1 "$shares" |
    parallel ${HOSTS:+--sshloginfile "$HOSTS"} --jobs 2 \
        splitcase render "$jobs" --out "$out" --workers 1 --quiet --shard "{}/$shares"
