#!/bin/bash
# Builds everything in build/ and runs the tests; --long runs the long ones in full too.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
export DEBIAN_FRONTEND=noninteractive

case "${1:-}" in
  "") ;;
  --long) export LIKELIHET_LONG=1 ;;
  *)
    echo "usage: bash tests/run.sh [--long]" >&2
    exit 2
    ;;
esac

bash tests/install_packages.sh
cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DLIKELIHET_TESTS=ON >/dev/null
cmake --build build -- --quiet
ctest --test-dir build -j2 --output-on-failure --progress
