#include <algorithm>
#include <cerrno>
#include <set>

#include <sys/stat.h>

#include <fmt/format.h>

#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/index.h"
#include "cli/verify/verify_page.h"
#include "engine/book/texts.h"
#include "engine/questions/risk/workers.h"

namespace acre::cli {
namespace {

class Verifier {
  public:
    explicit Verifier(const VerifyQuestion& question)
        : question_(question),
          book_(question.folder),
          texts_(book_.texts()) {}

    lang::Outcome<Verified> run() {
        // Read before the records: whoever adds one meanwhile moves it past what is seen here.
        read_heads();
        chain_.trust_only({question_.keys.begin(), question_.keys.end()});
        const lang::Outcome<std::vector<std::uint64_t>> found = book_.indices();
        if (!found)
            return found.said;
        if (found->empty() && !head_)
            return book_.unread("it has no records and no head: it is no quote book");
        // Whoever adds the first record may be stopped before the head is there.
        if (!head_ && !(found->size() == 1 && head_is_missing()))
            chain_.fault("head", "is missing or not whole: " + head_reason_);
        records(*found);
        check_index();
        remarks();
        return finish();
    }

  private:
    const VerifyQuestion& question_;
    Book book_;
    engine::Chain chain_;
    engine::KeptBetween kept_;
    engine::KeptTexts texts_;
    Verified verified_;
    std::optional<engine::Head> head_;
    std::string head_reason_;

    bool head_is_missing() const {
        struct stat about = {};
        return ::lstat((book_.folder() + "/head").c_str(), &about) != 0 && errno == ENOENT;
    }

    void read_heads() {
        std::string text;
        head_reason_ = book_.read("head", text);
        if (head_reason_.empty()) {
            head_ = engine::read_head(text);
            head_reason_ = "cut short, or changed";
        }
        if (head_)
            chain_.expect(*head_, "the head");
        if (question_.head)
            chain_.expect(*question_.head, "the head given");
    }

    // What a record comes to by itself, whatever stands before it: most of the work.
    struct Read {
        std::string unreadable, bad_texts; // why, or empty
        engine::ReadRecord record;
        std::optional<ComparedQuote> quote;
    };

    // What is judged in the order of the book is who said what and when.
    static void forget_figures(engine::QuoteRecord& quote) {
        quote.carried = {};
        quote.lines = {};
        quote.givens = {};
        quote.costs = {};
        quote.inner = {};
        quote.shown = {};
        quote.risk = {};
    }

    Read read(std::uint64_t index) {
        Read read;
        std::string bytes;
        const std::string file = engine::record_file(index);
        read.unreadable = book_.read(file, bytes);
        if (!read.unreadable.empty())
            return read;
        read.record = engine::read_record(bytes);
        engine::Record& record = read.record.record;
        auto* quote = std::get_if<engine::QuoteRecord>(&record.body);
        if (!read.record.whole)
            return read;
        if (quote != nullptr) {
            read.bad_texts = engine::fetch_texts(
                *quote, [this](const std::string& seal) { return texts_.find(seal); });
            if (read.bad_texts.empty())
                read.quote = compare_quote(record, file, kept_);
            forget_figures(*quote);
        }
        return read;
    }

    // The records are read and priced a handful at a time by all threads, and then judged in the
    // order of the book, so that no more than the handful is kept.
    void records(const std::vector<std::uint64_t>& indices) {
        const std::size_t handful = std::size_t{64} * question_.threads;
        for (std::size_t first = 0; first < indices.size(); first += handful) {
            std::vector<Read> reads(std::min(handful, indices.size() - first));
            engine::in_threads(question_.threads, reads.size(), [&] {
                return [&](std::size_t i) { reads[i] = read(indices[first + i]); };
            });
            for (std::size_t i = 0; i < reads.size(); ++i)
                judge(indices[first + i], std::move(reads[i]));
        }
    }

    void judge(std::uint64_t index, Read read) {
        if (!read.unreadable.empty())
            return chain_.unreadable(index, read.unreadable);
        const std::string file = engine::record_file(index);
        const engine::Record* record = chain_.add(index, std::move(read.record));
        if (record == nullptr)
            return;
        verified_.version_1 += record->version == 1 ? 1 : 0;
        verified_.unknown += std::holds_alternative<engine::OtherRecord>(record->body) ? 1 : 0;
        if (record->quote() == nullptr) {
            for (const std::string& seal : engine::seals_in(*record))
                if (const engine::FoundText text = book_.text(seal); !text.fault.empty())
                    chain_.fault(file, "is not whole: its text " + text.fault);
        } else if (!read.bad_texts.empty()) {
            chain_.fault(file, "is not whole: " + read.bad_texts);
        } else {
            verified_.quotes.push_back(std::move(*read.quote));
        }
    }

    // The index proves nothing, but lists are made from it.
    void check_index() {
        std::string bytes;
        const std::string reason = book_.read("index", bytes);
        if (reason == "No such file or directory")
            return;
        const std::optional<BookIndex> index = BookIndex::read(book_);
        const auto said = index ? index->events() : std::nullopt;
        if (!said) {
            verified_.remarks.emplace_back("index is damaged, and is not used");
            return;
        }
        const std::vector<engine::Event>& events = chain_.lives().events();
        bool same = said->size() <= events.size();
        for (std::size_t i = 0; same && i < said->size(); ++i)
            same = engine::event_line((*said)[i]) == engine::event_line(events[i]);
        if (!same)
            chain_.fault("index",
                         "does not say what the records say; remove it, it is built again");
    }

    void remarks() {
        for (const std::string& name : book_.strays())
            verified_.remarks.push_back(name + " is no file of the book's");
    }

    Verified finish() {
        verified_.records = chain_.records();
        verified_.head = chain_.newest();
        verified_.faults = chain_.finish();
        verified_.signers = chain_.keys().signers();
        verified_.unsigned_records = chain_.keys().unsigned_records();
        verified_.keys_given = !question_.keys.empty();
        verified_.head_given = question_.head.has_value();
        return std::move(verified_);
    }
};

} // namespace

lang::Outcome<Verified> verify_book(const VerifyQuestion& question) {
    return Verifier(question).run();
}

std::size_t Verified::count(Compared outcome) const {
    return static_cast<std::size_t>(std::count_if(
        quotes.begin(), quotes.end(),
        [&](const ComparedQuote& quote) { return quote.outcome == outcome; }));
}

std::vector<std::string> Verified::not_proved() const {
    std::vector<std::string> sentences;
    if (signers.empty())
        sentences.emplace_back("No record is signed: the seals show that the records fit together, "
                               "not who wrote them.");
    else if (unsigned_records > 0)
        sentences.push_back(
            fmt::format("The first {} {} came before the first key: the signed records after "
                        "them seal them, but nothing shows who wrote them.",
                        unsigned_records, unsigned_records == 1 ? "record" : "records"));
    if (!signers.empty() && !keys_given)
        sentences.emplace_back("The keys are those that the book itself states: `--key KEY` trusts "
                               "only the one that you know.");
    if (!head_given)
        sentences.emplace_back("Nothing rules out that the newest records were taken away, or that "
                               "the whole book was written anew: keep the head above in another "
                               "place and give it back with `--head`.");
    sentences.emplace_back("Times of writing are those of the machine that wrote.");
    return sentences;
}

} // namespace acre::cli
