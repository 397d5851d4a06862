#!/usr/bin/env bash
# Includes point one way, heavy libraries stay in few files, and the layers below the command line touch nothing outside.
# Each rule prints what breaks it.
set -euo pipefail
cd "$(dirname "$0")/.."
broken=0
passed=0

# rule WHAT LINES: broken if there are any lines
rule() {
    if [[ -n $2 ]]; then
        printf 'broken: %s\n%s\n' "$1" "$2" >&2
        broken=$((broken + 1))
    else
        passed=$((passed + 1))
    fi
}
# Lines of own includes in folder $1 that do not begin with one of the folders after it.
strays() {
    local folder=$1 allowed
    shift
    allowed=$(IFS='|' && echo "$*")
    # Highway's headers ask for quotes.
    grep -rnE '^#include "' --include='*.h' --include='*.cpp' "$folder" | grep -vE "#include \"($allowed|hwy)/" || true
}
sources=$(find lang engine cli -name '*.cpp' -o -name '*.h' -o -name '*.def' | sort)

rule 'lang includes lang alone' "$(strays lang lang)"
rule 'engine includes engine and lang' "$(strays engine engine lang)"
rule 'cli includes cli, engine, lang and the texts of the library' "$(strays cli cli engine lang models)"
rule 'lang/source includes nothing but itself' "$(strays lang/source lang/source)"
rule 'lang/units includes nothing but itself' "$(strays lang/units lang/units)"
rule 'lang/diag includes lang/source' "$(strays lang/diag lang/diag lang/source)"
rule 'lang/syntax includes source, diag, the reading of numbers and the versions' \
    "$(strays lang/syntax lang/syntax lang/source lang/diag lang/units | grep -v '"lang/earlier/rules.h"' || true)"
rule 'lang/earlier/rules.h includes nothing' "$(grep -n '#include "' lang/earlier/rules.h || true)"
rule 'lang/check does not include the driver' "$(grep -rn '"lang/compile.h"' lang/check || true)"

# Folders in the order of the table in a layer's README: each may include those before it. A single file of the layer's root may stand
# among them, as NAME.h.
in_order() {
    local layer=$1 before='' entry
    shift
    for entry in "$@"; do
        if [[ $entry == *.h ]]; then
            before+="|$entry"
            entry="${entry%.h}."
            grep -nE "^#include \"$layer/" "$layer/$entry"* | grep -vE "\"$layer/(${before#|})" || true
        else
            before+="|$entry/"
            grep -rnE "^#include \"$layer/" "$layer/$entry" | grep -vE "\"$layer/(${before#|})" || true
        fi
    done
}
rule 'the folders of engine include upward in the table of engine/README.md alone' \
    "$(in_order engine native plan readers field job words faults driver.h log questions book billing learning workbook)"
rule 'engine/README.md has the folders of engine in that order' \
    "$(diff <(grep -oE '^\| `(native|plan|readers|field|job|words|faults|driver\.h|log|questions|book|billing|learning|workbook)/?`' engine/README.md | tr -d '|`/ ') \
        <(printf '%s\n' native plan readers field job words faults driver.h log questions book billing learning workbook) || true)"
rule 'what differs under a browser is in cli/module/wasm' \
    "$(grep -nE 'emscripten|__wasm' $sources | grep -v '^cli/module/wasm/' || true)"
rule 'every folder of engine stands in that order' \
    "$(ls -d engine/*/ | grep -vE '^engine/(native|plan|readers|field|job|words|faults|log|questions|book|billing|learning|workbook)/$' || true)"

# A command of the program is a folder; what two of them need is in cli/shared. A comparison shows the bridge between its jobs, a price the
# bridge to what `--set` makes of it, a quote and the crew the map of its field. A page shows map and price, and carries the module, which answers in the
# JSON of the commands.
borrowed() {
    local folder name
    for folder in $(ls -d cli/*/); do
        name=$(basename "$folder")
        [[ $name == shared ]] && continue
        grep -rnE '^#include "cli/' "$folder" | grep -vE "\"cli/(shared/|$name/|command\.h\"|exit_codes\.h\")" || true
    done
}
rule 'a command includes its own folder and cli/shared' \
    "$(borrowed | grep -vE '^cli/(compare/compare_(text|json)|price/(changed_text|price_json))\.cpp:[0-9]+:#include "cli/bridge/|^cli/(quote/draft|verify/remade|crew/crew_page)\.cpp:[0-9]+:#include "cli/field/report\.h"|^cli/page/.*"cli/(field/report|price/price_text|module/texts)\.h"|^cli/module/questions_json\.cpp:.*"cli/[a-z_/]*(_json|_page|/card)\.h"' || true)"
rule 'cli/shared includes no command' "$(grep -rnE '^#include "cli/' cli/shared | grep -vE '"cli/(shared/|exit_codes\.h")' || true)"
rule 'cli asks: it reads no plan and no sheet' "$(grep -rnE '^#include "(engine/(plan|readers|faults)|lang/check)/' cli || true; grep -rnE '(\.|->)(sheet|checked|plan|compiled)\(\)' cli || true)"

# Files that include something themselves, or by way of own headers.
reach() {
    local pattern=$1 headers new
    headers=$(grep -lE "$pattern" $sources || true)
    while :; do
        new=$headers
        for header in $headers; do
            [[ $header == *.cpp ]] || new+=$'\n'$(grep -lF "#include \"$header\"" $sources || true)
        done
        new=$(sort -u <<<"$new" | grep . || true)
        [[ $new == "$headers" ]] && break
        headers=$new
    done
    echo "$headers"
}
pegtl=$(reach '#include <tao/')
rule 'PEGTL stays in lang/syntax' "$(grep -v '^lang/syntax/' <<<"$pegtl" || true)"
rule 'PEGTL is compiled in two files at most' "$(grep '\.cpp$' <<<"$pegtl" | tail -n +3)"
json=$(reach '#include <nlohmann/json.hpp>')
# Who reads or writes JSON: the writers, the records of quotes and the commands that show them, the boundaries of fields (GeoJSON).
rule 'nlohmann/json stays in the JSON files' "$(grep -vE '^(cli/shared/json/|cli/quote/|engine/book/|engine/field/boundary\.cpp|.*_json\.(h|cpp)$)' <<<"$json" || true)"
rule 'libxlsxwriter stays in cli/workbook' "$(reach '#include <xlsxwriter' | grep -v '^cli/workbook/xlsx' || true)"
rule 'CLI11 stays in one file' "$(reach '#include <CLI/' | grep -v '^cli/shared/arguments.cpp$' || true)"
rule 'fmt stays out of headers' "$(grep -ln '#include <fmt/' $(grep '\.h$' <<<"$sources") || true)"

below=$(grep -E '^(lang|engine)/' <<<"$sources")
rule 'lang and engine do not print' "$(grep -nE '#include <(iostream|print)>|\b(printf|puts|fputs|perror)\(|\bstd::(cout|cerr|clog)\b' $below || true)"
rule 'lang and engine read no file' "$(grep -nE '#include <(fstream|filesystem|fcntl\.h|unistd\.h)>|\bfopen\(' $below || true)"
rule 'lang and engine look at no clock and no environment' \
    "$(grep -nE 'std::chrono::[a-z_]*clock|\bstd::time\(|\bgetenv\(|std::random_device' $below || true)"

# Faults of the disk are met, and injected by tests/faults, in one place.
changes='::(write|pwrite|writev|fsync|fdatasync|rename|renameat2?|link|linkat|symlink|mkdir|mkostemp|mkstemp|mkdtemp|creat|f?truncate|unlink|unlinkat|remove|remove_all|f?chmod|fchmodat|f?chown|flock|create_director(y|ies)|copy_file|resize_file)\('
rule 'files are changed by cli/shared/files/durable.cpp alone' \
    "$(grep -nE "$changes|O_(CREAT|WRONLY|RDWR|TRUNC)|\b(ofstream|fstream|fopen|fdopen|tmpfile)\b" $(grep '^cli/' <<<"$sources" | grep -vE '^cli/shared/(files/durable|console)\.cpp$') || true)"

# What is said goes through the console, which lets nothing pass that steers a terminal. What a library says by itself is kept
# from it in one place.
says='\bstd::(cout|cerr|clog|ostream|osyncstream)\b|#include <(iostream|ostream|print|syncstream)>|\bfmt::v?print\(|\b(v?f?printf|v?dprintf|f?puts|f?putc|putchar|fwrite|perror|psignal|warnx?|errx?)\(|\bSTD(OUT|ERR)_FILENO\b|\bstd(out|err)\b|/dev/(std|tty|fd)|::write\(|\bwrite_all\('
rule 'what is said goes through cli/shared/console.cpp' \
    "$(grep -nE "$says" $(grep '^cli/' <<<"$sources" | grep -vE '^cli/shared/console\.(h|cpp)$') | grep -vE '^cli/shared/files/durable\.cpp:[0-9]+:.*write_all\(file\.value\(\), text\)|^cli/workbook/library_words\.cpp:[0-9]+:.*STDERR_FILENO' || true)"

# Files of tests are compiled together: what one opens must not reach the next.
rule 'a file of tests is a namespace, named after it or acre::tests' \
    "$(find tests/{lang,engine,cli,property,published,docs,golden,limits,hostile,fuzz,workbook} -name '*.cpp' \
        -exec awk 'FNR == 1 { inside = 0 } /^namespace [a-z]/ && !/ fs =/ { inside = 1 }
            /^(using|namespace \{)/ && !inside { print FILENAME ": " $0 }' {} + || true)"

printf '%d passed, %d failed\n' "$passed" "$broken"
[[ $broken -eq 0 ]]
