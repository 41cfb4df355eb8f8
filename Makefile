# `make demo` builds the hat; `make test` runs every check but those that need a browser, `make test-pages` these. All
# install what is missing first (see .ci/setup).

pinned := pyproject.toml .ci/setup

.PHONY: demo test test-pages bench faults row-faults fuzz kills audit records quick-forms format lock clean

demo: .venv/ready-to-build
	.venv/bin/stitchproof build cobblewick_hat
	@echo "The hat is in build/cobblewick_hat/ as HTML and PDF."

test: .venv/ready-to-test
	.venv/bin/ruff check .
	.venv/bin/ruff format --check .
	.venv/bin/mypy
	.venv/bin/pytest --numprocesses auto --dist loadscope --ignore tests/pages

# The printed pages in a browser, their accessibility, and the W3C's checker. Takes a minute or two, and a browser.
test-pages: .venv/ready-to-test-pages
	.venv/bin/pytest --numprocesses auto --dist worksteal tests/pages

# Time per stage, growth with sizes and patterns, what pages cost beside other typesetters, and memory, as ratios within one run.
bench: .venv/ready-to-test
	.venv/bin/python -m tests.bench.stages saltmarrow_yoke_top
	.venv/bin/python -m tests.bench.pages cobblewick_hat
	.venv/bin/python -m tests.bench.comparing saltmarrow_yoke_top
	.venv/bin/python -m tests.bench.preview saltmarrow_yoke_top
	.venv/bin/python -m tests.preview.many_saves 1000
	.venv/bin/python -m tests.bench.peers cobblewick_hat
	.venv/bin/python -m tests.bench.many 100
	.venv/bin/python -m tests.bench.memory cobblewick_hat

# Over a thousand faults in the demos, each put in alone: what is found, and why the rest is not. Takes minutes.
faults: .venv/ready-to-test
	.venv/bin/python -m tests.machine_made_faults

# Over a thousand slips in the rows of the demos, each put in alone: what is found, and why the rest is not. Takes minutes.
row-faults: .venv/ready-to-test
	.venv/bin/python -m tests.row_faults

# Sources changed at random: what comes apart, and what takes longest; and saves of a pattern that is followed while it is
# written. Minutes; `--executions`, `--seconds` and `--saves` ask for more.
fuzz: .venv/ready-to-test
	.venv/bin/python -m tests.fuzz --executions 50000 --seconds 300
	.venv/bin/python -m tests.kept.edits --saves 100

# Two hundred whole builds killed or stopped at random moments, and two thousand kills while files are put in place.
kills: .venv/ready-to-test
	.venv/bin/python -m tests.kills.builds --kills 200
	rm -rf .venv/kills
	.venv/bin/python -m tests.kills.deliveries .venv/kills 1000 1

# What is known against the pinned packages; asks the advisory database of PyPI over the network.
audit:
	python3 -m venv .venv/audit
	.venv/audit/bin/pip install -q pip-audit
	.venv/audit/bin/pip-audit --strict --require-hashes --disable-pip -r requirements-dev.txt

# The committed records of the demos, and the schema they keep to.
records: .venv/ready-to-test
	.venv/bin/python -m tests.record.write_records

# What is quicker to load than what it is made from: the JSON beside the data files of the compiler, after a change of one, and
# its regular expressions as Python compiles them, after a change of many.
quick-forms: .venv/ready-to-test
	.venv/bin/python -m tests.standards.write_quick_forms
	.venv/bin/python -m tests.checks.write_expressions
	.venv/bin/python -m tests.editions.write_declarations

format: .venv/ready-to-test
	.venv/bin/ruff check --fix .
	.venv/bin/ruff format .

.venv/ready-to-build: requirements.txt $(pinned)
	.ci/setup requirements.txt
	@touch $@

.venv/ready-to-test: requirements-dev.txt $(pinned)
	.ci/setup requirements-dev.txt
	@touch $@

.venv/ready-to-test-pages: .venv/ready-to-test tests/pages/package.json tests/pages/package-lock.json
	.ci/setup requirements-dev.txt pages
	@touch $@

pin := CUSTOM_COMPILE_COMMAND="make lock" .venv/lock/bin/pip-compile --quiet --upgrade --generate-hashes --strip-extras \
	--no-emit-index-url --no-emit-find-links --no-emit-trusted-host --build-deps-for wheel

# Writes both requirements files anew, each version with the hashes of all its published files.
lock:
	python3 -m venv .venv/lock
	.venv/lock/bin/pip install -q pip-tools
	$(pin) --output-file requirements.txt pyproject.toml
	$(pin) --extra dev --constraint requirements.txt --output-file requirements-dev.txt pyproject.toml

clean:
	rm -rf .venv dist .hypothesis .mypy_cache .pytest_cache .ruff_cache
	git clean -fdX build
