#!/bin/bash
# Builds everything in build/ and runs the tests; --long also runs the statistical checks in full and
# the benchmarks, and writes docs/evidence.md.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
export DEBIAN_FRONTEND=noninteractive

long=OFF
case "${1:-}" in
  "") ;;
  --long) long=ON ;;
  *)
    echo "usage: bash tests/run.sh [--long]" >&2
    exit 2
    ;;
esac

bash tests/install_packages.sh
cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DLIKELIHET_TESTS=ON \
  -DLIKELIHET_WEB=ON -DLIKELIHET_BENCH=$long >/dev/null
cmake --build build -- --quiet
[[ $long == OFF ]] || python3 tests/evidence/write_evidence.py build
ctest --test-dir build -j2 --output-on-failure --progress
