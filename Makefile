# What a person types here. `make` alone lists it.

PYTHON := .venv/bin/python
WORKERS := 2
STUDIES := typical_year demand_shape seasoning seasoning_learning convergence contest
.DEFAULT_GOAL := help
.PHONY: help setup run test prove bench docs lint types wheel lock clean

help: ## list these
	@awk -F ':.*## ' '/^[a-z]+:.*## / { printf "make %-7s %s\n", $$1, $$2 }' $(MAKEFILE_LIST)

setup: ## make .venv for development (quick when nothing changed)
	@scripts/setup.sh dev

run: ## open the demo holding on this computer
	@scripts/setup.sh run
	@.venv/bin/woodreeve demo

test: setup ## run the tests; ARGS="tests/wood -k heat" for some of them
	@scripts/system-packages.sh
	@echo "Tests:"
	@$(PYTHON) -m pytest $(if $(ARGS),$(ARGS),-n $(WORKERS) --dist loadfile)

prove: setup ## run the long studies, whose figures go to measured/
	@for script in $(STUDIES); do \
		echo "Study: $$script"; $(PYTHON) -m studies.$$script || exit 1; \
	done

bench: setup ## measure speed; the figures go to the screen
	@for script in $(patsubst bench/%.py,%,$(wildcard bench/[a-z]*.py)); do \
		echo "Bench: $$script"; $(PYTHON) -m bench.$$script $(ARGS) || exit 1; \
	done

docs: setup ## build the documentation into docs/_build/html, warnings are errors
	@$(PYTHON) -m sphinx -W --keep-going -q -b html docs docs/_build/html
	@echo "Docs: docs/_build/html/index.html"

lint: setup ## style, banned calls and the floors
	@$(PYTHON) -m ruff check .
	@$(PYTHON) -m ruff format --check .
	@.venv/bin/lint-imports

types: setup ## strict type check
	@$(PYTHON) -m mypy

wheel: setup ## build the wheel once and try it, alone, on the oldest and newest Python here
	@scripts/wheel.sh

lock: ## write requirements/*.txt anew from pyproject.toml; ARGS=--upgrade for newer versions
	@scripts/lock.sh $(ARGS)

clean: ## remove all that can be made again
	rm -rf .venv .cache .setup-lock dist build docs/_build docs/reference/generated .ruff_cache .hypothesis
