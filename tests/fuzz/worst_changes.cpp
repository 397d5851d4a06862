#include "tests/fuzz/worst_changes.h"

#include <algorithm>
#include <cctype>
#include <string_view>

#include "tests/fuzz/small_folder.h"

namespace acre::fuzz {
namespace {

// Files that are read, then the words: parted by bars.
constexpr const char* starts[][2] = {
    {"job", "price|f.job"},
    {"job", "price|f.job|--json"},
    {"job", "explain|f.job"},
    {"job", "explain|f.job|price.total|--json"},
    {"job", "compare|f.job|--over|load 20 %..90 %"},
    {"job", "compare|f.job|--flip|load"},
    {"job", "bridge|f.job|f.job|--set|load=20 %"},
    {"job", "workbook|f.job|--write|w.xlsx"},
    {"job", "sensitivity|f.job"},
    {"job", "sensitivity|f.job|--all|--json"},
    {"job", "break-even|f.job|--vary|load|--price|$40,000"},
    {"job", "grid|f.job|--along|load=20 %..60 % by 10 %"},
    {"job", "rate-card|f.job|--rows|load=20 %..60 % by 10 %|--columns|method"},
    {"job", "risk|f.job|--threads|1"},
    {"job", "quote|f.job|--draft|--date|2027-03-14"},
    {"job", "page|f.job|--write|p.html"},
    {"job", "rate-card|f.job|--rows|load=20 %..60 % by 10 %|--pages|method|--page|c.html|--earns"},
    {"job", "calendar|f.job"},
    {"job", "check|f.job"},
    {"job", "check|rip.rate"},
    {"job", "check|2027.season"},
    {"job", "tidy|rip.rate"},
    {"job", "tidy|f.job"},
    {"job", "season|.|--page|season.html"},
    {"job", "season|.|--another|crawler|--fleet|crawler=2"},
    {"job", "try|crawler.burn * 2|--job|f.job"},
    {"job", "shell|complete|--|price|f.job|--set|"},
    {"field", "field|f.geojson"},
    {"field", "field|f.geojson|--spacing|4 ft|--heading|12 deg|--json"},
    {"field", "field|f.geojson|--lines|l.geojson|--gpx|l.gpx|--picture|p.svg|--turn-circle|60 ft"},
    {"field", "price|map.job"},
    {"book", "book|book"},
    {"book", "verify|book"},
    {"book", "quote|2027-001|--book|book"},
    {"book", "bridge|2027-001|again|--season|2027.season|--book|book"},
    {"book", "mark|2027-001|accepted|--book|book|--date|2027-03-20"},
    {"book", "crew|2027-001|--book|book"},
    {"book", "key|list|--book|book"},
    {"log", "variance|2027-001|log.csv|--book|book"},
    {"log", "bill|2027-001|log.csv|--book|book|--draft|--date|2027-07-01"},
    {"closed", "outcomes|--book|book"},
    {"closed", "learn|--book|book|--season|2027.season"},
    {"closed", "learn|--book|book|--season|2027.season|--write|new.season"},
    {"", "words|given"},
    {"", "measures|45 gal/h|in|L/h"},
    {"", "codes|U301"},
    {"", "library|ripping"},
    {"", "manual|acrewright-rate.5"},
};

std::vector<std::string> read_by(std::string_view kind) {
    if (kind == "field")
        return {"f.geojson", "map.job", "plain.rate"};
    std::vector<std::string> read;
    if (kind == "log" || kind == "closed")
        read = {"log.csv", "log.csv"}; // as often as the others
    if (!kind.empty())
        read.insert(read.end(), {"f.job", "rip.rate", "crawler.rate", "2027.season"});
    return read;
}

std::vector<std::string> parted(std::string_view line) {
    std::vector<std::string> words(1);
    for (const char c : line)
        if (c == '|')
            words.emplace_back();
        else
            words.back() += c;
    return words;
}

using Random = std::mt19937_64;
constexpr const char* edges[] = {"0",      "1",          "9999",          "36600", "99999",
                                 "200000", "4294967295", "1000000000000", "1e300", "0.000000001"};

bool in_word(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '.';
}

// From a place in the text to the beginning of its line, and past its end.
std::size_t line_begin(const std::string& text, std::size_t at) {
    const std::size_t before = at == 0 ? std::string::npos : text.rfind('\n', at - 1);
    return before == std::string::npos ? 0 : before + 1;
}
std::size_t line_end(const std::string& text, std::size_t at) {
    const std::size_t end = text.find('\n', at);
    return end == std::string::npos ? text.size() : end + 1;
}

struct Piece {
    std::size_t begin, end;
};
Piece some_lines(const std::string& text, Random& random) {
    const std::size_t begin = line_begin(text, random() % (text.size() + 1));
    std::size_t end = line_end(text, begin);
    for (std::size_t more = random() % 4; more > 0 && end < text.size(); --more)
        end = line_end(text, end);
    return {begin, end};
}
Piece some_word(const std::string& text, Random& random) {
    std::size_t at = random() % text.size();
    while (at < text.size() && !in_word(text[at]))
        ++at;
    Piece word{at, at};
    while (word.begin > 0 && in_word(text[word.begin - 1]))
        --word.begin;
    while (word.end < text.size() && in_word(text[word.end]))
        ++word.end;
    return word;
}

// Every place of a word, with a number after it.
std::string numbered(std::string_view lines, std::string_view word, std::size_t number) {
    std::string text;
    for (std::size_t at = 0; at < lines.size();) {
        const std::size_t found = lines.find(word, at);
        if (found == std::string_view::npos || word.empty())
            return text.append(lines.substr(at));
        text.append(lines.substr(at, found + word.size() - at)).append(std::to_string(number));
        at = found + word.size();
    }
    return text;
}

std::size_t how_often(std::size_t bytes, std::size_t room, Random& random) {
    constexpr std::size_t times[] = {2, 10, 100, 1'000, 10'000};
    return std::min(times[random() % std::size(times)], room / (bytes + 4));
}

void copy_lines(std::string& text, std::size_t room, Random& random) {
    const Piece piece = some_lines(text, random);
    const std::string lines = text.substr(piece.begin, piece.end - piece.begin);
    if (lines.empty())
        return;
    const std::string word = [&] {
        const Piece found = some_word(lines, random);
        return random() % 4 == 0 ? std::string()
                                 : lines.substr(found.begin, found.end - found.begin);
    }();
    std::string copies;
    for (std::size_t i = how_often(lines.size(), room, random); i > 0; --i)
        copies += numbered(lines, word, i);
    text.insert(piece.end, copies);
}

void repeat_piece(std::string& text, std::size_t room, Random& random) {
    const std::size_t begin = random() % text.size();
    const std::string piece = text.substr(begin, 1 + random() % 12);
    std::string copies;
    for (std::size_t i = how_often(piece.size(), room, random); i > 0; --i)
        copies += piece;
    text.insert(begin, copies);
}

void nest(std::string& text, std::size_t room, Random& random) {
    const std::size_t begin = text.find("= ", random() % text.size());
    if (begin == std::string::npos)
        return;
    const std::size_t depth = std::min<std::size_t>(how_often(2, room, random), 1'000);
    const std::size_t end = text.find('\n', begin);
    text.insert(end == std::string::npos ? text.size() : end, std::string(depth, ')'));
    text.insert(begin + 2, std::string(depth, random() % 2 == 0 ? '(' : '-'));
}

void put_edge(std::string& text, Random& random) {
    for (std::size_t tries = 0; tries < 20; ++tries) {
        const Piece word = some_word(text, random);
        if (word.begin < word.end &&
            std::isdigit(static_cast<unsigned char>(text[word.begin])) != 0) {
            text.replace(word.begin, word.end - word.begin, edges[random() % std::size(edges)]);
            return;
        }
    }
}

void change_words(WorstInput& input, Random& random) {
    std::string& word = input.words[random() % input.words.size()];
    if (&word == &input.words[0])
        return;
    switch (random() % 4) {
    case 0:
        if (!word.empty())
            put_edge(word, random);
        break;
    case 1: // an option of any command, with its value
        for (const auto& start : starts) {
            const std::vector<std::string> words = parted(start[1]);
            const std::size_t at = random() % words.size();
            if (random() % std::size(starts) == 0 && words[at].starts_with("--"))
                input.words.insert(input.words.end(),
                                   words.begin() + static_cast<std::ptrdiff_t>(at), words.end());
        }
        break;
    case 2:
        input.words.insert(input.words.end(), how_often(word.size(), 16'384, random), word);
        break;
    default:
        if (!word.empty())
            repeat_piece(word, 8'192, random);
    }
}

void copy_file(WorstInput& input, std::size_t room, Random& random) {
    const std::string name = input.read[random() % input.read.size()];
    const std::string text = input.files[name];
    const std::size_t dot = name.rfind('.');
    for (std::size_t i = std::min<std::size_t>(how_often(text.size(), room, random), 300); i > 0;
         --i) {
        const std::string copy = name.substr(0, dot) + std::to_string(i) + name.substr(dot);
        if (input.files.emplace(copy, text).second)
            input.read.push_back(copy);
    }
}

} // namespace

std::size_t WorstInput::bytes() const {
    std::size_t sum = 0;
    for (const auto& [name, text] : files)
        if (std::find(read.begin(), read.end(), name) != read.end())
            sum += text.size();
    for (const std::string& word : words)
        sum += word.size() + 1;
    return sum;
}

bool WorstInput::asks_for_more() const {
    return std::any_of(
        words.begin(), words.end(),
        [&](const std::string& word) {
            const bool counts = word.starts_with("--trials") || word.starts_with("--threads") ||
                                (&word != words.data() && (&word)[-1].starts_with("--t"));
            return counts &&
                   std::count_if(
                       word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; }) > 4;
        });
}

std::vector<WorstInput> worst_starts() {
    std::vector<WorstInput> all;
    for (const auto& [kind, line] : starts) {
        WorstInput& start =
            all.emplace_back(WorstInput{small_folder(), parted(line), read_by(kind)});
        start.files.erase("book/000001.json"); // quoted anew, from the texts as they are then
        const std::string_view of = kind;
        const bool closed = of == "closed", log = of == "log" || closed;
        if (of == "book" || log)
            start.before.push_back(parted("quote|f.job|--book|book|--date|2027-03-14"));
        if (log || start.words[0] == "crew")
            start.before.push_back(parted("mark|2027-001|accepted|--book|book|--date|2027-03-20"));
        if (closed) // with its log sealed
            start.before.push_back(
                parted("mark|2027-001|finished|--log|log.csv|--book|book|--date|2027-04-20"));
    }
    return all;
}

void change(WorstInput& input, std::size_t largest, Random& random) {
    if (input.read.empty() || random() % 8 == 0)
        return change_words(input, random);
    std::string& text = input.files[input.read[random() % input.read.size()]];
    const std::size_t used = input.bytes();
    const std::size_t room = used < largest ? largest - used : 0;
    if (text.empty())
        text = input.files[input.read[0]];
    if (text.empty())
        return;
    switch (random() % 8) {
    case 0:
    case 1:
    case 2:
        return copy_lines(text, room, random);
    case 3:
        return repeat_piece(text, room, random);
    case 4:
        return nest(text, room, random);
    case 5:
        return put_edge(text, random);
    case 6: {
        const Piece piece = some_lines(text, random);
        text.erase(piece.begin, piece.end - piece.begin);
        return;
    }
    default:
        return copy_file(input, room, random);
    }
}

} // namespace acre::fuzz
