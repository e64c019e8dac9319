#!/bin/bash
# Installs those of the packages for building, testing and checking that are missing.
set -euo pipefail
export DEBIAN_FRONTEND=noninteractive

needed=(g++ cmake ninja-build libeigen3-dev libboost-math-dev nlohmann-json3-dev libsqlite3-dev
        libsqlitecpp-dev libssl-dev libcli11-dev libfmt-dev libqrencode-dev
        libgtest-dev libgmock-dev librapidcheck-dev libbenchmark-dev python3 python3-jsonschema
        gcovr clang-tidy clang clang-format llvm chromium zbar-tools)
# Node.js often comes from elsewhere than Debian, with an npm of its own.
command -v npm >/dev/null || needed+=(nodejs npm)
missing=()
for package in "${needed[@]}"; do
  state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null || true)
  [[ $state == installed ]] || missing+=("$package")
done
((${#missing[@]})) || exit 0
as_root=()
((EUID == 0)) || as_root=(sudo)
echo "Installing ${missing[*]}"
"${as_root[@]}" apt-get update -qq
"${as_root[@]}" apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
