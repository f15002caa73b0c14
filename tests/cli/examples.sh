#!/bin/sh
# The example jobs' PDFs, by programs that are not ours: PDFBox preflight (PDF/A-1b, ISO 19005-1), qpdf, poppler, MuPDF.
# Each job on A4 and Letter, in millimetres and inches. Last, each page is looked at (tests/pdf/finished.h).
. "$(dirname "$0")/harness.sh"
# -N: Debian builds MuPDF without colour management, and it says so of every file with a profile.
need qpdf pdffonts pdftotext pdftoppm mutool java
J=/usr/share/java
# All files of a folder in one go: a virtual machine of its own for each takes longer than all the rest.
preflight() {
    java -XX:TieredStopAtLevel=1 -XX:+UseSerialGC -cp $J/preflight.jar:$J/pdfbox2.jar:$J/fontbox2.jar:$J/xmpbox.jar:$J/commons-logging.jar:$J/javax.activation.jar:$J/jaxb-api.jar \
        org.apache.pdfbox.preflight.Validator_A1b xml group "$1" >err 2>&1
}
# preflight_says_valid FOLDER PDF: what it wrote of one file.
preflight_says_valid() {
    sed -n "/<preflight name=\"$2\">/,/<\/preflight>/p" "$1.preflight.xml" >err
    grep -q "<isValid type=\"PDF/A1-b\">true<" err
}
fonts_embedded() { pdffonts "$1" 2>&1 | tail -n +3 | awk 'NF { n++; if ($(NF-4) != "yes" || $(NF-3) != "yes" || $(NF-2) != "yes") bad = 1 } END { exit !(n && !bad) }'; }
reads_without_a_warning() { "$@" >/dev/null 2>err && silent err; }
looks_well() { mkdir -p look && "$look_at" look "$1" >out 2>err; }

# The job's own text from the record's last block: what stands between the file's name and the next sheet, less each
# page's head (up to the line with the sheet's title) and foot (from "The saw maker" on).
recover_job() {
    pdftotext -layout "$1" text && awk -v name="$2" '
        /\f/ { sub(/^\f/, ""); foot = 0; head = 1 }
        head && /(record|sheet): / { head = 0; if (found && $0 !~ /record/) exit; next }
        head { next }
        /^The saw maker/ { foot = 1 }
        foot { next }
        found { print }
        $0 == name { found = 1 }' text >recovered.yaml && test -s recovered.yaml
}
# Same states, checks, tests: all results but the file's name and the hash of its bytes.
gives_the_same_results() {
    "$fettle" -q -n -r a.json --today 2026-07-01 "$1" 2>err
    "$fettle" -q -n -r b.json --today 2026-07-01 recovered.yaml 2>>err
    grep -vE '"(file|fingerprint)"' a.json >a.txt && grep -vE '"(file|fingerprint)"' b.json >b.txt && same a.txt b.txt
}

number_of() { sed -n "s/.*number: *\([^,} ]*\).*/\1/p" "$1" | head -n 1; }

for look in "A4 mm" "Letter in"; do
    set -- $look
    run -q -j 2 -o "$1" --paper "$1" --units "$2" --today 2026-07-01 "$jobs"/*.yaml
    check "$look: preflight runs" preflight "$1"
    for job in "$jobs"/*.yaml; do
        name=$(number_of "$job")
        pdf=$1/$name.pdf
        check "$name $look: written" test -s "$pdf"
        check "$name $look: valid PDF/A-1b" preflight_says_valid "$1" "$name.pdf"
        check "$name $look: qpdf finds nothing" reads_without_a_warning qpdf --check "$pdf"
        check "$name $look: all fonts embedded, subset, with Unicode" fonts_embedded "$pdf"
        check "$name $look: poppler warns of nothing" reads_without_a_warning pdftotext "$pdf" text
        check "$name $look: MuPDF warns of nothing" reads_without_a_warning mutool draw -N -F text "$pdf"
        check "$name $look: no sentence or number is missing" sh -c "! grep -nE \"\\?[a-z_.#-]+\\?\" text >err"
        check "$name $look: what stands above the sheet" says text "rank above"
        check "$name $look: every page is as it should be" looks_well "$pdf"
    done
done

with_tests=$(grep -l "^tests:" "$jobs"/*.yaml)
run -q -j 2 -o record -s record --today 2026-07-01 $with_tests
for job in $with_tests; do
    name=$(number_of "$job")
    check "$name: the record prints the job" recover_job record/"$name".pdf "$(basename "$job")"
    check "$name: which, typed off the paper, gives the same results" gives_the_same_results "$job"
done
finish
