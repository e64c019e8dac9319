#!/bin/bash
# Time and memory of `likelihet learn` on large books, from start to end of the process:
# learn_large.sh BUILD ana|sure [ANIMALS ...]. Needs GNU time. A book of 8 markers read on every
# animal, by a scorer who may err or for sure, and a test on every tenth; 6 % of pairings are between
# relatives. Four chains, to R-hat 1.01.
set -euo pipefail
build=$1
readings=$2
shift 2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
"$build/tests/bench/write_herd" model 8 >model.json
(($#)) || set -- 5000 10000 20000
for animals in "$@"; do
  "$build/tests/bench/write_herd" colony 8 "$animals" "$readings" >colony.json
  rm -f book
  "$build/cli/likelihet" init book --model model.json >/dev/null
  "$build/cli/likelihet" import book colony.json >/dev/null
  echo "$animals animals:"
  /usr/bin/time -f "%e s wall, %U s processor, %M KiB at most" \
    "$build/cli/likelihet" learn book >learned.txt || continue
  grep "R-hat" learned.txt
done
