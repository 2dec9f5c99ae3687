# Read by tests/run, scenarios/run and .ci/run: building quietly, counting honestly.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
if command -v ccache >/dev/null; then
    export CMAKE_CXX_COMPILER_LAUNCHER=ccache
fi

# run_quietly LOG COMMAND...: the output goes to LOG and is shown only when COMMAND fails.
run_quietly() {
    local log=$1
    shift
    mkdir -p "$(dirname "$log")"
    "$@" >"$log" 2>&1 && return 0
    grep -nE 'error|FAILED|Error' "$log" | head -n 40 >&2 || true
    tail -n 30 "$log" >&2
    echo "Failed: $* (all of it in $log)" >&2
    return 1
}

# configure PRESET [CMAKE OPTION...]
configure() {
    local preset=$1
    shift
    run_quietly "build/$preset/configure.log" cmake --preset "$preset" "$@"
}

# build PRESET [TARGET...]
build() {
    local preset=$1
    shift
    local targets=()
    (($#)) && targets=(--target "$@")
    run_quietly "build/$preset/build.log" \
        cmake --build --preset "$preset" --parallel "$(nproc)" "${targets[@]}"
}

# count_tests LOG: prints "PASSED FAILED", in test cases, from a CTest log.
# A Catch2 program counts with the cases of its closing line; any other test, and a program
# that died before its closing line, counts as one.
count_tests() {
    awk '
        /^All tests passed \(.* in [0-9]+ test cases?\)/ {
            match($0, / in [0-9]+ test case/)
            split(substr($0, RSTART, RLENGTH), word, " ")
            passed += word[2]; seen = 1
        }
        /^No test cases matched / || /^No tests ran/ { seen = 1 }
        /^test cases: +[0-9]+ / {
            seen = 1
            for (i = 2; i <= NF; ++i) {
                if ($(i) == "passed") passed += $(i - 1)
                if ($(i) == "failed") { failed += $(i - 1); bad += $(i - 1) }
            }
        }
        /^Test Passed\.$/ { if (!seen) ++passed; seen = bad = 0 }
        /^Test (Failed|Timeout)\.$/ { if (!bad) ++failed; seen = bad = 0 }
        END { print passed + 0, failed + 0 }
    ' "$1"
}

# run_tests PRESET [CTEST OPTION...]: sets `passed` and `failed`; fails when a test failed,
# when CTest did, or when nothing ran.
run_tests() {
    local preset=$1 status=0
    shift
    local log=build/$preset/Testing/Temporary/LastTest.log
    rm -f "$log"
    ctest --preset "$preset" --parallel "$(nproc)" --no-tests=error --quiet \
        --output-log "build/$preset/tests.log" "$@" || status=$?
    passed=0 failed=0
    if [[ -f $log ]]; then read -r passed failed < <(count_tests "$log"); fi
    if ((status != 0)); then
        show_failures "$log"
        ((failed > 0)) || failed=1
    fi
    ((failed == 0 && passed > 0))
}

# show_failures LOG: the whole output of every test that failed, and nothing else.
show_failures() {
    [[ -f $1 ]] || return 0
    awk '
        /^Output:$/ { text = "" }
        /^Command: / { command = $0 "\n" }
        { text = text $0 "\n" }
        /^Test (Failed|Timeout)\.$/ { printf "%s%s", command, text }
        /^Test (Passed|Failed|Timeout)\.$/ { text = "" }
    ' "$1" >&2
}
