#!/bin/sh
# Every option and exit status of the program, from outside.
. "$(dirname "$0")/harness.sh"
good=$jobs/bay-2-sled.yaml
bad_state=$jobs/damp-shed-do-not-use.yaml
day="--today 2026-11-10"
sed 's/kerf: 2.8/kerf: 2.8 furlongs/' "$good" >broken.yaml

run --version
check "version" says out "fettle 0."
check "version exits 0" exits 0
run --help
check "help names every long option" sh -c 'for o in out sheets dry-run results register jobs today dated paper units starter schema quiet verbose help version; do grep -q -- "--$o" out || exit 1; done'
run
check "no job: 64" exits 64
run --no-such-option "$good"
check "unknown option: 64" exits 64
check "unknown option is named" says err "--no-such-option"
run --sheets wall,roof "$good"
check "unknown sheet: 64" exits 64
run --paper A5 "$good"
check "unknown paper: 64" exits 64
run -j 0 "$good"
check "no worker at all: 64" exits 64
run --today 2026-02-30 "$good"
check "a day that does not exist: 64" exits 64
SOURCE_DATE_EPOCH=soon run -n "$good"
check "malformed SOURCE_DATE_EPOCH: 64" exits 64
SOURCE_DATE_EPOCH=soon run --schema
check "what needs no day asks for none" exits 0
run -o "" "$good"
check "no name for the folder: 64" exits 64
for answer in --help --version --schema "--starter parts"; do
    status=0; "$fettle" $answer >/dev/full 2>err || status=$?
    check "$answer on a full disk: 3" exits 3
    check "$answer on a full disk is told" says err "standard output"
done

run -o sheets $day "$good"
check "fit: 0" exits 0
check "the job line" says out "TS-07: FIT FOR USE: squareness +0.042 ± 0.005 mm in 300, within 0.10; TS-07.pdf, "
check "a PDF is there, the folder made" test -s sheets/TS-07.pdf
check "nothing on standard error" silent err
run -o sheets -q $day "$good"
check "quiet says nothing" silent out
run -o a $day "$bad_state"
check "do-not-use: 1" exits 1
check "its sheets are written all the same" test -s a/SHED-9.pdf
check "its line" says out "SHED-9: DO NOT USE"
run -n -o none $day "$good"
check "dry run writes nothing" test ! -e none
run -o a broken.yaml
check "unreadable: 2" exits 2
check "line and column of the mistake" says err "broken.yaml:15:32: error: saw.blade.kerf: wrong unit"
check "a caret under it" says err "^"
check "no sheet of a broken job" test ! -e a/TS-07.pdf
run -o a "$jobs/drawer-boxes.yaml" broken.yaml
check "beside a broken job the other is written" test -s a/DB-4.pdf
check "one broken job of two: 2" exits 2
run -o a $day no-such-file.yaml
check "missing file: 2" exits 2
run -o a . 
check "a folder is no job: 2" exits 2

sed 's/title: .*/title: "Sled \\u4e2d"/' "$good" >escaped.yaml
run -n escaped.yaml
check "a character that the fonts lack, written by its number: 2" exits 2
check "a character that the fonts lack, written by its number: its place" says err "escaped.yaml:5:16: error: a character that cannot be printed: U+4E2D"

{ printf '\357\273\277'; sed 's/^units: mm/units:\tmm\t# metric/; s/$/\r/' "$good"; } >tabs.yaml
run -o tabs $day tabs.yaml
check "tabs, CR LF and a byte order mark: the sheets are made" exits 0
check "tabs, CR LF and a byte order mark: the same state" says out "TS-07: FIT FOR USE: squareness +0.042"

cp "$good" "日本 sled.yaml"
run -o names $day "日本 sled.yaml"
check "a file whose name the fonts lack: its sheets are made" exits 0
odd=$(printf 'odd\377\033.yaml'); cp "$good" "$odd"
run -o names -r names.json $day "$odd"
check "a file whose name is no text: its sheets are made" exits 0
check "a file whose name is no text: the results are UTF-8" iconv -f UTF-8 -t UTF-16 -o /dev/null names.json

cp "$good" copy.yaml
run -o twice $day "$good" copy.yaml
check "two jobs of one name: 3" exits 3
check "neither is written" test ! -e twice/TS-07.pdf
check "both are named" sh -c 'grep -q bay-2-sled err && grep -q copy.yaml err'
run -o /dev/null/x $day "$good"
check "a folder that cannot be made: 3" exits 3
run -n -r /dev/full $day "$good"
check "results on a full disk: 3" exits 3

for report in "" "-r -" "-R -"; do
    status=0; "$fettle" -n $report $day "$good" >/dev/full 2>err || status=$?
    check "standard output on a full disk ($report): 3" exits 3
    check "standard output on a full disk ($report) is told" says err "standard output: cannot write"
done

status=0; (ulimit -f 8; exec "$fettle" -o limited $day "$good" >out 2>err) || status=$?
check "a limit on the size of files: 3" exits 3
check "a limit on the size of files: nothing half-written is left" test -z "$(ls limited)"
{ status=0; "$fettle" -o piped -r - $day "$good" "$bad_state" 2>err || status=$?; echo $status >status; } | head -c 1 >out
check "results into a pipe that is closed: 3" grep -qx 3 status
check "results into a pipe that is closed: the sheets are made" test -s piped/TS-07.pdf

# The shell puts jobs where the name of the results was forgotten.
cp "$good" first.yaml; cp "$good" second.yaml
run -n -r first.yaml second.yaml first.yaml
check "results over a job: 64" exits 64
check "results over a job: it is as it was" same "$good" first.yaml
run -n -R ./second.yaml first.yaml second.yaml
check "the register over a job, by another name: 64" exits 64
check "the register over a job: it is as it was" same "$good" second.yaml
run -n -r report -R report $day "$good"
check "results and register in one file: 64" exits 64
"$fettle" -n -r /dev/stdout $day "$good" >through 2>err
check "results on /dev/stdout are those on standard output" sh -c 'head -c 1 through | grep -q "{" && tail -n 1 through | grep -qx "}"'

mkdir shop; ln -s shop shop-by-link; sed 's/TS-07/ts-07/' "$good" >shop/b.yaml; cp "$good" shop/a.yaml
run $day shop/a.yaml shop-by-link/b.yaml
check "two jobs of one name, their folder by two names: 3" exits 3
check "two jobs of one name, their folder by two names: neither is written" sh -c '! ls shop/*.pdf 2>/dev/null'

run -n -v $day "$bad_state"
check "verbose says what fails, on standard error" says err "SHED-9: FAIL: "
check "verbose keeps to one line a job on standard output" sh -c 'wc -l <out | grep -qx 1'
cat >stop-only.yaml <<'Y'
tests: [{method: stop, date: 2026-11-02, pairs: [[100, 103], [200, 203], [300, 303]]}]
Y
sed '/^tests:/,$d; /date:/d' "$good" | cat - stop-only.yaml >no-cut.yaml
run -n $day no-cut.yaml
check "a sled with a test of its stop alone is told which test it lacks" says out "NOT TESTED: no test yet: make the bench sheet’s five-cut test"
cat >two.yaml <<'Y'
  - {method: stop, date: 2026-11-02, pairs: [[100, 103], [200, 203], [300, 303]]}
  - {method: flip, date: 2026-11-02, height: 20, gap: 0.05, open: top, turned: left}
changes: []
Y
sed '/^changes:/d' "$good" | cat - two.yaml >unproven.yaml
run -n $day unproven.yaml
check "not proven: the line names the test that is undecided, not the stop" says out "NOT PROVEN: flip test"

run -n -r - $day "$good"
check "results on standard output are JSON and nothing else" sh -c 'head -c 1 out | grep -q "{" && tail -n 1 out | grep -qx "}"'
check "the job line moves to standard error" says err "TS-07: FIT FOR USE"
run -n -r r.json -R r.csv $day "$good" "$bad_state" broken.yaml
check "dry run writes the results asked for" test -s r.json
check "the register has a head" says r.csv "file,number,title,saw,state,method,date,by,error,unit,expanded_uncertainty,tolerance,verdict,due,overdue,moved,fingerprint"
check "the register has a row for a job that could not be read" says r.csv "unreadable"
check "the register ends its lines with CR LF" sh -c 'grep -c "$(printf "\r")\$" r.csv | grep -qx "$(wc -l <r.csv)"'
check "errors stand in the results" says r.json '"wrong-unit"'

run -o today1 --today 2026-11-10 "$good"; s1=$status
run -o today2 --today 2027-06-01 "$good"; s2=$status
check "overdue: 1" test "$s1 $s2" = "0 1"
check "overdue is said" says out "NOT PROVEN: overdue since 2027-02-02"
check "the day of printing never reaches the PDF" same today1/TS-07.pdf today2/TS-07.pdf
SOURCE_DATE_EPOCH=1811808000 run -n "$good"   # 2027-06-01
check "SOURCE_DATE_EPOCH is the day" exits 1

run -o many -j 1 -r one.json $day "$jobs"/*.yaml; cp out one.txt
run -o many4 -j 4 -r four.json $day "$jobs"/*.yaml
check "the same lines for every -j" same out one.txt
check "the same results for every -j" same one.json four.json
for pdf in many/*.pdf; do check "the same bytes for every -j: $pdf" same "$pdf" "many4/${pdf#many/}"; done

run -o dated --dated $day "$good"
check "dated names" test -s dated/TS-07-2026-11-02.pdf
run -o letter --paper Letter $day "$good"
check "paper changes the sheet" differ letter/TS-07.pdf sheets/TS-07.pdf
run -o inch --units in $day "$good"
check "units change the sheet" differ inch/TS-07.pdf sheets/TS-07.pdf
check "and the line" says out "in over 11 "
run -o wall -s wall $day "$good"
check "one sheet alone" says out "TS-07.pdf, 1 page"
check "one page is no plural" sh -c '! grep -q "1 pages" out'

run -o record-only -s record $day "$jobs/first-sled.yaml"
check "a record of a job without tests: nothing to write, 3" exits 3
check "it says what there is" says err "asked for record, and this job has data for wall, build, bench only"
run -o build-only -s build $day "$jobs/saw-record.yaml"
check "a build sheet of a saw alone: nothing to write, 3" exits 3
check "it says what that saw has" says err "asked for build, and this job has data for wall, record, bench only"
check "no empty file of the saw" test ! -e build-only/SAW-4.pdf
cat >blank.yaml <<'Y'
fettle: 1
job: {number: BLANK, title: Blank bench pages}
units: mm
saw: {name: Saw by the door}
tests: []
Y
run -o blank $day blank.yaml
check "a saw without a test: nothing speaks against it, nothing for it" says out "BLANK: NOT TESTED: no test yet: make those of the bench sheet; BLANK.pdf"
check "no empty file" test ! -e record-only/SLED-1.pdf
run -n -r - -R - "$good"
check "results and register on one standard output: 64" exits 64

run -v -n $day --units in "$jobs/one-slot-315.yaml"
check "a file in millimetres is mended in millimetres, printed in inches or not" says err "jig.runners.width: 19."

run --schema
check "the schema is JSON" sh -c 'head -c 1 out | grep -q "{"'
check "it is a schema" says out '$schema'
run --starter crosscut-sled
cp out starter.yaml
check "a starter" exits 0
run -n $day starter.yaml
check "the starter reads" sh -c "[ $status -le 1 ]"
run --starter crosscut-sled --units in
cp out starter-in.yaml
run -n $day starter-in.yaml
check "the inch starter reads" sh -c "[ $status -le 1 ]"
run --starter bookshelf
check "no starter for a bookshelf: 64" exits 64

finish
