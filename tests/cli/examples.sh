#!/bin/sh
# The example jobs' PDFs, by programs that are not ours: PDFBox preflight (PDF/A-1b, ISO 19005-1), qpdf, poppler, MuPDF.
# Each job on A4 and Letter, in millimetres and inches.
. "$(dirname "$0")/harness.sh"
# -N: Debian builds MuPDF without colour management, and it says so of every file with a profile.
need qpdf pdffonts pdftotext pdftoppm mutool java
J=/usr/share/java
preflight() {
    java -cp $J/preflight.jar:$J/pdfbox2.jar:$J/fontbox2.jar:$J/xmpbox.jar:$J/commons-logging.jar:$J/javax.activation.jar:$J/jaxb-api.jar \
        org.apache.pdfbox.preflight.Validator_A1b "$1" >err 2>&1
}
fonts_embedded() { pdffonts "$1" 2>&1 | tail -n +3 | awk 'NF { n++; if ($(NF-4) != "yes" || $(NF-3) != "yes" || $(NF-2) != "yes") bad = 1 } END { exit !(n && !bad) }'; }
reads_without_a_warning() { "$@" >/dev/null 2>err && silent err; }

# Word boxes of one page must not intersect. A box is as high as the font's ascent and descent, which lines set close do
# share: a fifth off each end of its height leaves the letters.
cat >boxes.awk <<'A'
function value(key,   s) { s = $0; sub(".*" key "=\"", "", s); sub("\".*", "", s); return s + 0 }
/<page / { n = 0; page++ }
/<word / {
    x0 = value("xMin"); y0 = value("yMin"); x1 = value("xMax"); y1 = value("yMax")
    h = (y1 - y0) / 5; w = (x1 - x0) / 50
    word = $0; sub("[^>]*>", "", word); sub("<.*", "", word)
    if (length(word) > 2 && y1 - y0 > 1.5 * (x1 - x0)) { w = (x1 - x0) / 5; h = (y1 - y0) / 50 } # reads from below
    if ($0 ~ />\342\201\204</) { h = (y1 - y0) * 2 / 5; w = (x1 - x0) * 2 / 5 } # a solidus: tucked in between its figures, no higher than they
    n++; a[n] = x0 + w; b[n] = y0 + h; c[n] = x1 - w; d[n] = y1 - h; line[n] = $0
    for (i = 1; i < n; i++) if (a[i] < c[n] && a[n] < c[i] && b[i] < d[n] && b[n] < d[i]) {
        print "page " page ": " line[i] " over " line[n]; bad = 1
    }
}
END { exit bad }
A
no_words_over_words() { pdftotext -bbox "$1" boxes.html && awk -f boxes.awk boxes.html >err; }

# The job's own text from the record's last block: what stands between the file's name and the next sheet, less each
# page's head (its first line) and foot (from "The saw maker" on).
recover_job() {
    pdftotext -layout "$1" text && awk -v name="$2" '
        /\f/ { sub(/^\f/, ""); foot = 0; head = 1 }
        head { head = 0; if (found && $0 !~ /record/) exit; next }
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

for job in "$jobs"/*.yaml; do
    name=$(basename "$job" .yaml)
    for look in "A4 mm" "Letter in"; do
        set -- $look
        run -q -o "$name-$1" --paper "$1" --units "$2" --today 2026-07-01 "$job"
        pdf=$(ls "$name-$1"/*.pdf)
        check "$name $look: written" test -s "$pdf"
        check "$name $look: valid PDF/A-1b" preflight "$pdf"
        check "$name $look: qpdf finds nothing" reads_without_a_warning qpdf --check "$pdf"
        check "$name $look: all fonts embedded, subset, with Unicode" fonts_embedded "$pdf"
        check "$name $look: poppler warns of nothing" reads_without_a_warning pdftotext "$pdf" text
        check "$name $look: MuPDF warns of nothing" reads_without_a_warning mutool draw -N -F text "$pdf"
        check "$name $look: no word over another" no_words_over_words "$pdf"
        pdftotext "$pdf" text
        check "$name $look: no sentence or number is missing" sh -c '! grep -nE "\?[a-z_.#-]+\?" text >err'
        check "$name $look: what stands above the sheet" says text "rank above"
    done
    grep -q '^tests:' "$job" || continue
    run -q -o "$name-record" -s record --today 2026-07-01 "$job"
    check "$name: the record prints the job" recover_job "$name-record"/*.pdf "$(basename "$job")"
    check "$name: which, typed off the paper, gives the same results" gives_the_same_results "$job"
done
finish
