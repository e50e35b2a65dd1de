# Two commands do everything: `make demo` and `make test`. The rest is for contributors.
PYTHON ?= python3
BAYCARD = .venv/bin/baycard

.PHONY: demo test lint bench soak pictures sheet second-engine lighthouse clean

demo:
	@$(PYTHON) tools/setup.py demo
	@$(BAYCARD) demo

test:
	@$(PYTHON) tools/setup.py test
	@.venv/bin/python tools/run_checks.py

lint:
	@$(PYTHON) tools/setup.py test
	@.venv/bin/python tools/run_checks.py --only-lint

bench:
	@$(PYTHON) tools/setup.py test
	@.venv/bin/python -m tests.bench

soak:
	@$(PYTHON) tools/setup.py test
	@.venv/bin/python -m tests.sync.soak --seeds 100000 --kills 200

pictures:
	@$(PYTHON) tools/setup.py test
	@.venv/bin/python -m tools.take_pictures

sheet:
	@$(PYTHON) tools/setup.py test
	@.venv/bin/python -m tools.contact_sheet

second-engine:
	@$(PYTHON) tools/setup.py second-engine
	@.venv/bin/python -m pytest tests/journeys/test_second_engine.py

lighthouse:
	@$(PYTHON) tools/setup.py test
	@.venv/bin/python -m tools.lighthouse

clean:
	rm -rf .venv .setup frontend/node_modules baycard/web/static demo-data
