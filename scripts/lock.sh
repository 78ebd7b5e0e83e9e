#!/bin/sh
# Write requirements.lock and requirements-dev.lock from pyproject.toml: releases and hashes, no addresses.
#
# Releases already in the files stay as they are; pass --upgrade, or --upgrade-package NAME, to move on.
# Needs uv on the PATH.
set -eu
cd "$(dirname "$0")/.."

pin() {
    uv pip compile pyproject.toml --quiet --universal --python-version 3.11 --fork-strategy fewest \
        --generate-hashes --no-header --no-annotate --no-emit-index-url --no-emit-find-links "$@"
}

pin --group build --output-file requirements.lock "$@"
pin --group dev --constraints requirements.lock --output-file requirements-dev.lock "$@"
