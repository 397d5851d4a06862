#include "lang/kept_trees.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "lang/check/resolve/begun.h"
#include "lang/compile.h"
#include "tests/support/memory_loader.h"

namespace kept_trees_test {

using namespace acre;
using namespace acre::lang;

namespace {

class KeepingLoader : public tests::MemoryLoader {
  public:
    KeepingLoader(tests::Files files, KeptTrees& trees)
        : MemoryLoader(std::move(files)),
          trees_(trees) {}
    KeptTrees* kept_trees() override { return &trees_; }

  private:
    KeptTrees& trees_;
};

// What a compilation says and comes to; with `trees` it shares them.
struct Compiled {
    std::string said;
    std::vector<std::string> lines;
};
Compiled compiled(const std::string& job, const tests::Files& files, KeptTrees* trees,
                  std::uint32_t notation = current_notation) {
    Request request;
    request.name = "j.job";
    request.text = job;
    request.every_function = false;
    request.notation = notation;
    SourceMap sources;
    Diagnostics diagnostics;
    tests::MemoryLoader plain(files);
    KeptTrees unused;
    KeepingLoader keeping(files, trees != nullptr ? *trees : unused);
    Loader& loader = trees != nullptr ? static_cast<Loader&>(keeping) : plain;
    const auto sheet = compile(request, loader, sources, diagnostics);
    Compiled out;
    for (const Diagnostic& d : diagnostics.all()) {
        const SourceFile& file = sources.file(d.primary.span.file);
        out.said += std::string(name_of(d.code)) + " " + file.name() + ":" +
                    std::to_string(file.position(d.primary.span.begin).line) + " " + d.title + "\n";
    }
    if (!sheet)
        return out;
    for (const Line& line : (*sheet)->lines) {
        const SourceFile& file = sources.file(line.name_span.file);
        std::string text = line.name + " " + line.unit_text + " " + line.label + " " + file.name() +
                           ":" + std::to_string(line.name_span.begin);
        if (line.given != none)
            for (const Setting& setting : (*sheet)->givens[line.given].settings)
                text += " = " + std::string(sources.text(setting.span));
        if (line.value != none)
            text += " : " + std::string(sources.text((*sheet)->nodes[line.value].span));
        out.lines.push_back(text);
    }
    return out;
}

const tests::Files files = {
    {"rip.rate", "model \"Ripping\"\nuse \"prices\"\ngiven area = 80 ac \"net acres\"\n"
                 "given rate = $3/ac\nspare : $ = rate * area\n"
                 "cost tips : $/ac = rate over area\nprice \"Ripping\" per ac of area\n"},
    {"prices.rate", "model \"p\"\ngiven diesel = $4/gal\n"},
    {"2027.season", "season \"2027\"\nset prices.diesel = $5/gal\n"},
};

void check_same(const std::string& job, const tests::Files& from, KeptTrees& trees,
                std::uint32_t notation = current_notation) {
    const Compiled alone = compiled(job, from, nullptr, notation);
    for (int again = 0; again < 2; ++again) { // the second time from what the first one kept
        const Compiled shared = compiled(job, from, &trees, notation);
        CHECK(shared.said == alone.said);
        CHECK(shared.lines == alone.lines);
    }
}

} // namespace

TEST_CASE("jobs of one model share its tree and nothing that they set") {
    KeptTrees trees;
    const std::string head = "job \"j\"\nmodel \"rip\"\nseason \"2027\"\n";
    check_same(head, files, trees);
    CHECK(trees.size() == 3);
    check_same(head + "set area = 120 ac\n", files, trees);
    check_same(head + "set area = 7 ac\nset rate = $9/ac\nset prices.diesel = $6/gal\n", files,
               trees);
    check_same(head + "set area = 7 gal\n", files, trees); // an error, of this job alone
    check_same(head, files, trees);
    CHECK(trees.size() == 3); // the jobs' own texts are not kept
    // without a season the model stands at another place among the files
    check_same("job \"j\"\nmodel \"rip\"\nset area = 5 ac\n", files, trees);
    CHECK(trees.size() == 5);
}

TEST_CASE("a text that differs by one letter has a tree of its own, and so has another name") {
    KeptTrees trees;
    const std::string job = "job \"j\"\nmodel \"rip\"\nseason \"2027\"\n";
    check_same(job, files, trees);
    tests::Files other = files;
    std::string& model = other["rip.rate"];
    model.replace(model.find("$3/ac"), 5, "$4/ac");
    check_same(job, other, trees);
    CHECK(trees.size() == 4); // what it uses stands where it stood
    check_same(job, files, trees);
    tests::Files renamed = files;
    renamed["rip2.rate"] = renamed["rip.rate"];
    check_same("job \"j\"\nmodel \"rip2\"\nseason \"2027\"\n", renamed, trees);
    check_same(job, files, trees);
}

TEST_CASE("a text is read anew by the rules of another version") {
    KeptTrees trees;
    tests::Files old = files;
    old["prices.rate"] = "model \"p\"\ngiven diesel = $4/gal\ngiven may = 2 ac\n";
    const std::string job = "job \"j\"\nmodel \"rip\"\nseason \"2027\"\n";
    check_same(job, old, trees, 1);
    CHECK(!compiled(job, old, &trees, 1).lines.empty());
    check_same(job, old, trees); // `may` is a word now
    CHECK(compiled(job, old, &trees).lines.empty());
    check_same(job, old, trees, 1);
}

TEST_CASE("what the models make is made once, and every job lays its own values over it") {
    KeptTrees trees;
    tests::Files many = files;
    many["blocks.rate"] =
        "model \"Blocks\"\nlist block \"a piece of ground\"\nnoun tip\n"
        "choice load = low | high\ngiven rate = $3/ac\ngiven tips = 3 tip\n"
        "given wear : load = low\npart \"Ground\" each block\n  given area = 10 ac\n"
        "  cost rip : $/ac = rate over area\npart \"All\"\n  total : ac = sum(area)\n"
        "price \"Ripping\" per ac of total\n";
    const std::string rip = "job \"j\"\nmodel \"rip\"\nseason \"2027\"\n";
    const std::string blocks = "job \"j\"\nmodel \"blocks\"\n";
    const std::vector<std::string> jobs = {
        rip,
        rip + "set area = 120 ac swing 100 ac .. 140 ac\nfor \"Somebody\"\n",
        blocks,
        blocks + "set area = 12 ac\nset tips = 5 tip\n",
        blocks + "block west\n  set area = 12 ac\nblock east\n  set area = 13 ac\n",
        blocks + "set tips = 5 tip\noption \"More\"\n  set rate = $4/ac\n",
        blocks + "set tips = 5 tips\n",      // no unit
        blocks + "set rate = 9 CHF/ac\n",    // other money
        rip + "set area = 3 ac\nnoun tip\n", // nothing that a job may say
        rip + "set area = 3 ac\nset area = 4 ac\n",
        rip + "set spare = $3\n",
        rip + "set aera = 3 ac\ndate 2029-03-04\n",
        "job \"other\"\n\n\n# further down\nmodel \"rip\"\nseason \"2027\"\nset rate = $1/ac\n",
    };
    for (int round = 0; round < 2; ++round)
        for (const std::string& job : jobs)
            check_same(job, many, trees);
    CHECK(!compiled(blocks, many, &trees).lines.empty());
    CHECK(!compiled(jobs[4], many, &trees).lines.empty());
    CHECK(compiled(jobs[7], many, &trees).lines.empty());
    CHECK(trees.sheets().size() == 2); // of the models, whatever jobs there are
    many["rip.rate"] += "given more = 3 ac\n";
    check_same(rip, many, trees);
    CHECK(trees.sheets().size() == 3); // of other models, though of the same name
}

TEST_CASE("no more of what models make is kept than a few, and nothing huge") {
    KeptTrees trees;
    for (std::size_t i = 0; i < 3 * kept_sheets; ++i) {
        tests::Files many = files;
        many["prices.rate"] += "given g" + std::to_string(i) + " = 1 ac\n";
        check_same("job \"j\"\nmodel \"rip\"\n", many, trees);
    }
    CHECK(trees.sheets().size() == kept_sheets);
    KeptTrees others;
    tests::Files huge = files;
    for (std::size_t i = 0; i < kept_sheet_parts; ++i)
        huge["rip.rate"] += "given g" + std::to_string(i) + " = 1 ac\n";
    check_same("job \"j\"\nmodel \"rip\"\n", huge, others);
    CHECK(others.sheets().size() == 0);
}

TEST_CASE("what was said of a text is said in every compilation") {
    KeptTrees trees;
    tests::Files broken = files;
    broken["2027.season"] = "season \"2027\"\nset prices.diesel = = 3\n";
    const std::string job = "job \"j\"\nmodel \"rip\"\nseason \"2027\"\n";
    check_same(job, broken, trees);
    CHECK(!compiled(job, broken, &trees).said.empty());
}

TEST_CASE("no more text is kept than the limit, however many a stranger brings") {
    KeptTrees trees;
    const std::string filler = "# " + std::string(kept_tree_bytes / 4, 'x') + "\n";
    for (int i = 0; i < 12; ++i) {
        tests::Files many = files;
        many["prices.rate"] += filler + "given g" + std::to_string(i) + " = 1 ac\n";
        check_same("job \"j\"\nmodel \"rip\"\n", many, trees);
        CHECK(trees.size() <= 8); // three of the long ones, with the model beside
    }
    tests::Files huge = files;
    huge["prices.rate"] += "# " + std::string(kept_tree_bytes, 'x') + "\n";
    const std::size_t before = trees.size();
    check_same("job \"j\"\nmodel \"rip\"\n", huge, trees);
    CHECK(trees.size() <= before + 1); // its model alone
}

} // namespace kept_trees_test
