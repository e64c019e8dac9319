#!/bin/bash
# Installs what is missing, builds the program, and shows it at work on the demo's records.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
export DEBIAN_FRONTEND=noninteractive

needed=(g++ cmake ninja-build libeigen3-dev libboost-math-dev nlohmann-json3-dev libsqlite3-dev
        libsqlitecpp-dev libssl-dev libcli11-dev libfmt-dev libqrencode-dev)
missing=()
for package in "${needed[@]}"; do
  state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null || true)
  [[ $state == installed ]] || missing+=("$package")
done
if ((${#missing[@]})); then
  as_root=()
  ((EUID == 0)) || as_root=(sudo)
  echo "Installing ${missing[*]}"
  "${as_root[@]}" apt-get update -qq
  "${as_root[@]}" apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
fi

echo "Building likelihet in build/ (a few minutes the first time)"
cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build build --target likelihet -- --quiet

rm -f build/demo.book build/demo.book-wal build/demo.book-shm
show() {
  echo
  echo "\$ likelihet $*"
  build/cli/likelihet "$@"
}
show init build/demo.book --model models/demo/model.json
show import build/demo.book models/demo/colony.json
show odds build/demo.book --clutch C9
show why build/demo.book 25-C8-07 --locus fennglass
cat <<'END'

All names, traits and records of the demo are invented. What next:
  build/cli/likelihet odds build/demo.book               every animal
  build/cli/likelihet history build/demo.book Isolde     how a dam's odds went, day by day
  build/cli/likelihet odds build/demo.book --as-of 2024-12-31
  build/cli/likelihet learn build/demo.book              what the records teach about the markers
  build/cli/likelihet audit build/demo.book --html build/audit.html --force
                                                         whether past percentages came true, and each marker's worth
  build/cli/likelihet listing build/demo.book 25-C8-07   what may honestly be said of an animal
  build/cli/likelihet outlook build/demo.book Sedge Lorimer
  build/cli/likelihet next-test build/demo.book          which samples to send, in order
  build/cli/likelihet --help                             all commands; also docs/commands.md
Your own book: copy a model from models/, change it to your animals, then 'likelihet init'.
END
