# Doughwright. Each target does the set-up it needs, once.
.POSIX:
.NOTPARALLEL:
.PHONY: help setup demo serve test check sanitize wasm speed docs lock vendor
SHELL = /bin/sh
BIN = .venv/bin
PY = $(BIN)/python
FOLDER = saltmarsh-kitchen

help: ## Say what there is to make
	@awk -F ':.*## ' '/^[a-z]+:.*## / { printf "make %-8s %s\n", $$1, $$2 }' Makefile

setup: ## Make .venv with the command .venv/bin/doughwright
	@sh scripts/setup.sh run

demo: ## Build the demo bench, run the main job on it, then serve it (at a terminal)
	@sh scripts/setup.sh run
	@$(BIN)/doughwright demo

serve: ## Serve a bench on this machine: make serve FOLDER=my-bench
	@sh scripts/setup.sh run
	@$(BIN)/doughwright serve $(FOLDER)

test: check ## Run every check and test

check: ## The same: exactly what the build server runs
	@sh scripts/setup.sh dev
	@$(PY) scripts/check.py $(PARTS)

sanitize: ## Run the kernel under AddressSanitizer and UBSan
	@sh scripts/sanitize.sh

wasm: ## Compile the kernel to WebAssembly, run it, find the native digits
	@sh scripts/setup.sh wasm
	@$(PY) scripts/wasm.py

speed: ## Measure, with the peer in the same run, and write docs/speed.md
	@sh scripts/setup.sh dev
	@for one in benchmarks/[!_]*.py; do echo "== $$one"; $(PY) "$$one" || exit 1; done
	@$(PY) scripts/speed.py

docs: ## Write docs/commands.md and docs/evidence.md anew
	@sh scripts/setup.sh dev
	@$(PY) scripts/commands.py
	@$(PY) scripts/evidence.py

lock: ## Write the lock files anew from pyproject.toml (make lock UPGRADE=--upgrade)
	@sh scripts/setup.sh dev
	@sh scripts/lock.sh $(UPGRADE)

vendor: ## Fetch the two scripts of others again (needs npm)
	@sh scripts/vendor.sh
