# Sourced by the program-level tests. $1 is the program, $2 tests/pdf/look_at.c; `check NAME COMMAND…` counts, `finish` prints the sum and exits.
fettle=$1
look_at=$2
root=$(cd "$(dirname "$0")/../.." && pwd)
jobs=$root/jobs
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
passed=0
failed=0
check() {
    check_title=$1
    shift
    if "$@"; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "FAILED: $check_title ($*)"
        [ -s err ] && sed 's/^/    stderr: /' err | head -20
    fi
}
# run ARGUMENTS…: output in ./out, messages in ./err, exit status in $status
run() {
    status=0
    "$fettle" "$@" >out 2>err || status=$?
}
exits() { [ "$status" -eq "$1" ]; }
says() { grep -qF -- "$2" "$1"; }
silent() { [ ! -s "$1" ]; }
same() { cmp -s "$1" "$2"; }
differ() { ! cmp -s "$1" "$2"; }
need() {
    for tool in "$@"; do
        command -v "$tool" >/dev/null 2>&1 || { echo "missing tool: $tool (see tests/packages)"; exit 1; }
    done
}
finish() {
    echo "$passed passed, $failed failed"
    [ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
}
