# One command each; every one of them sets up ./.venv by itself when that is missing or out of date.
# PYTHON=python3.12 chooses the interpreter (3.11 or newer); ARGS="..." goes on to pytest.

PYTHON ?=
ARGS ?=
export PYTHON

BIN := .venv/bin
SET_UP := scripts/set_up.sh pyproject.toml

# A PYTHON named on the command line that .venv was not built with makes the stamps out of date.
ifneq ($(PYTHON),)
ifneq ($(PYTHON),$(shell cat .venv/.python 2>/dev/null))
SET_UP += anew
endif
endif

.PHONY: help demo test lint format bench lock clean anew
.DEFAULT_GOAL := help

help: ## say what can be made
	@awk -F ':.*## ' '/^[a-z]+:.*## / { printf "make %-7s %s\n", $$1, $$2 }' Makefile

demo: .venv/.stamp-run ## run a week of the kitchen in examples/demo, into demo-out/
	@$(BIN)/ladleworth demo

test: .venv/.stamp-dev ## run every test, the same cases each time
	@$(BIN)/python -m pytest --hypothesis-profile=ci $(ARGS)

lint: .venv/.stamp-dev ## check style, layout and types
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check .
	@$(BIN)/mypy

format: .venv/.stamp-dev ## lay the source out as lint wants it
	@$(BIN)/ruff check --fix .
	@$(BIN)/ruff format .

bench: .venv/.stamp-dev ## run each bench and print its table
	@for bench in $$(grep -l '^if __name__ == "__main__":' bench/*.py); do \
		echo "== $$bench"; \
		PYTHONPATH=. $(BIN)/python $$bench || exit 1; \
	done

lock: ## pin releases and hashes anew after pyproject.toml changed (needs uv)
	@scripts/lock.sh

clean: ## remove everything that can be made again
	rm -rf .venv demo-out dist build .mypy_cache .ruff_cache .pytest_cache .hypothesis
	find src tests bench -name __pycache__ -type d -prune -exec rm -rf {} +

.venv/.stamp-run: requirements.lock $(SET_UP)
	@scripts/set_up.sh run

.venv/.stamp-dev: requirements-dev.lock $(SET_UP)
	@scripts/set_up.sh dev
