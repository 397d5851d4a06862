#include "engine/questions/risk/experiment.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <mutex>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "engine/questions/risk/tally.h"
#include "engine/questions/risk/workers.h"

namespace acre::engine {
namespace {

// Trials are cut into strands, each added up in its own order and then with the others in theirs:
// so an answer does not know how many threads there were.
constexpr std::size_t strands_to_scramble = 4;
constexpr std::size_t strand_count = scrambles * strands_to_scramble;
constexpr std::size_t kept_without_answer = 5;
constexpr std::array shares_shown{0.05, 0.10, 0.25, 0.50, 0.75, 0.90, 0.95};
constexpr std::size_t bars = 50;

// What stopped a trial.
const char* fault_words(LaneFault fault) {
    switch (fault) {
    case LaneFault::Requirement:
        return "a requirement is not met";
    case LaneFault::OutsideRange:
        return "a given goes outside its allowed range";
    case LaneFault::BelowZero:
        return "a line is below zero";
    case LaneFault::None:
    case LaneFault::NoAnswer:
        break;
    }
    return "a line has no answer";
}

struct Strand {
    std::vector<Tally> tally; // by measure
    std::uint64_t without_answer = 0, refused = 0;
    std::vector<RefusalTally> refusals;
    std::vector<WithoutAnswer> first_without;
};

class Experiment {
  public:
    Experiment(const Trials& trials, const RiskQuestion& question)
        : trials_(trials),
          question_(question),
          points_(question.points != nullptr ? question.points->of(question.seed, trials.factors())
                                             : std::make_shared<const PointSet>(
                                                   make_points(question.seed, trials.factors()))) {}

    // False when no trial of the first few has an answer.
    bool pilot() {
        const std::size_t measures = trials_.measures();
        std::vector<std::vector<double>> seen(measures);
        Room room(trials_);
        for (std::size_t scramble = 0; scramble < pilot_batches; ++scramble) {
            const std::size_t n = points_in_batch;
            trials_.draw((*points_)[scramble], 0, 0, n, room.scratch);
            trials_.read(n, room.x.data(), room.p.data(), room.answer.data(), room.scratch);
            for (std::size_t m = 0; m < measures; ++m)
                for (std::size_t i = 0; i < n; ++i)
                    if (!std::isnan(room.answer[m][i]))
                        seen[m].push_back(room.answer[m][i]);
        }
        for (const std::vector<double>& y : seen)
            frames_.push_back(frame_of(y.data(), y.size()));
        return !seen[0].empty();
    }

    bool run() {
        strands_.resize(strand_count);
        in_threads(question_.threads, strand_count, [&] {
            return [this, room = Room(trials_), &bins = bins_of_thread()](
                       std::size_t strand) mutable { work(strand, room, bins); };
        });
        return !stopped();
    }

    void report(RiskAnswer& result, const std::vector<double>& at_job) {
        std::vector<Strand> scramble(scrambles);
        Strand all;
        for (std::size_t k = 0; k < scrambles; ++k) {
            for (std::size_t part = 0; part < strands_to_scramble; ++part)
                add(scramble[k], std::move(strands_[k * strands_to_scramble + part]));
            add(all, scramble[k]);
        }
        if (!question_.errors) {
            scramble.clear();
            for (std::size_t m = 0; m < trials_.measures(); ++m)
                all.tally[m].bin = bins_of_all(m);
        }
        result.without_answer = all.without_answer;
        result.first_without = all.first_without;
        result.refused = all.refused;
        trials_.refusals().report(all.refusals, result);
        for (std::size_t m = 0; m < trials_.measures(); ++m) {
            result.measured[m].at_job = at_job[m];
            measure(result.measured[m], m, all.tally[m], scramble);
        }
        if (trials_.has_price()) {
            std::tie(result.loss, result.loss_error) = below_zero(trials_.profit(), all, scramble);
            std::tie(result.loss_direct, result.loss_direct_error) =
                below_zero(trials_.contribution(), all, scramble);
        }
    }

    double centre(std::size_t measure) const { return frames_[measure].centre; }
    bool stopped() const {
        return question_.stop != nullptr && question_.stop->load(std::memory_order_relaxed);
    }

  private:
    // One thread's memory, with the pointers into it.
    struct Room {
        TrialScratch scratch;
        std::vector<const double*> x, p;
        std::vector<double*> answer;
        std::vector<double> whole; // answers of a batch with faults, drawn together
        std::vector<std::int64_t> bin;
        explicit Room(const Trials& trials)
            : scratch(trials.scratch(trials.factors())),
              whole(points_in_batch),
              bin(points_in_batch) {
            for (std::size_t f = 0; f < trials.factors(); ++f) {
                x.push_back(scratch.x.data() + f * points_in_batch);
                p.push_back(scratch.p.data() + f * points_in_batch);
            }
            for (std::size_t m = 0; m < trials.measures(); ++m)
                answer.push_back(scratch.answer.data() + m * points_in_batch);
        }
        Room(const Room&) = delete;
        Room(Room&&) = default;
    };

    // Without errors nobody asks for the bins of one strand: then each thread has one row of them
    // for all it counts, which stays near at hand.
    using ManyBins = std::vector<std::vector<std::uint64_t>>; // by measure
    std::deque<ManyBins> bins_;                               // by thread
    std::mutex mutex_;

    ManyBins& bins_of_thread() {
        const std::lock_guard lock(mutex_);
        return bins_.emplace_back(question_.errors ? 0 : trials_.measures(),
                                  std::vector<std::uint64_t>(bin_count + 2));
    }
    std::vector<std::uint64_t> bins_of_all(std::size_t measure) {
        std::vector<std::uint64_t> all(bin_count + 2);
        for (const ManyBins& bins : bins_)
            for (std::size_t k = 0; k < all.size(); ++k)
                all[k] += bins[measure][k];
        return all;
    }

    Strand empty_strand() const {
        return {std::vector<Tally>(trials_.measures(), Tally(question_.errors ? bin_count + 2 : 0)),
                0,
                0,
                std::vector<RefusalTally>(trials_.refusals().size()),
                {}};
    }

    void work(std::size_t number, Room& room, ManyBins& bins) {
        const std::size_t scramble = number / strands_to_scramble,
                          part = number % strands_to_scramble;
        const std::uint64_t mine =
            question_.trials / scrambles + (scramble < question_.trials % scrambles ? 1 : 0);
        const std::uint64_t batches = (mine + points_in_batch - 1) / points_in_batch;
        const std::uint64_t first = batches * part / strands_to_scramble;
        const std::uint64_t last = batches * (part + 1) / strands_to_scramble;
        if (first == last)
            return;
        Strand& strand = strands_[number] = empty_strand();
        for (std::uint64_t batch = first; batch < last; ++batch) {
            if (stopped())
                return;
            const std::size_t n = static_cast<std::size_t>(
                std::min<std::uint64_t>(points_in_batch, mine - batch * points_in_batch));
            trials_.draw((*points_)[scramble], batch, 0, n, room.scratch);
            std::size_t faulty =
                trials_.read(n, room.x.data(), room.p.data(), room.answer.data(), room.scratch);
            if (faulty > 0) {
                keep(strand, room, n);
                trials_.refusals().count(n, room.scratch.lanes.fault.data(),
                                         room.scratch.out.data(), strand.refusals);
            }
            for (std::size_t m = 0; m < trials_.measures(); ++m) {
                const double* y = room.answer[m];
                std::size_t sound = n;
                if (faulty > 0) {
                    sound = static_cast<std::size_t>(
                        std::copy_if(y, y + n, room.whole.begin(),
                                     [](double v) { return !std::isnan(v); }) -
                        room.whole.begin());
                    y = room.whole.data();
                }
                Tally& tally = strand.tally[m];
                draw_kernels().count(y, sound, frames_[m].centre, frames_[m].bins, tally.sums,
                                     room.bin.data());
                std::uint64_t* bin = (question_.errors ? tally.bin : bins[m]).data();
                for (std::size_t i = 0; i < sound; ++i)
                    ++bin[static_cast<std::size_t>(room.bin[i])];
                tally.count += sound;
            }
            strand.without_answer += faulty - room.scratch.refused;
            strand.refused += room.scratch.refused;
            if (question_.done != nullptr)
                question_.done->fetch_add(n, std::memory_order_relaxed);
            if (question_.passed)
                question_.passed(n);
        }
    }

    bool has_profit(const Room& room, std::size_t lane) const {
        return trials_.has_price() && !std::isnan(room.answer[trials_.profit()][lane]);
    }

    void keep(Strand& strand, const Room& room, std::size_t n) const {
        for (std::size_t i = 0; i < n && strand.first_without.size() < kept_without_answer; ++i) {
            if (room.scratch.lanes.fault[i] == LaneFault::None || has_profit(room, i))
                continue;
            WithoutAnswer trial{fault_words(room.scratch.lanes.fault[i]), {}};
            for (std::size_t f = 0; f < trials_.factors(); ++f)
                trial.drawn.push_back(trials_.is_event(f) ? room.p[f][i]
                                                          : room.x[f][i] * trials_.shown_per(f));
            strand.first_without.push_back(std::move(trial));
        }
    }

    // A strand of no trials has no tallies.
    template <class Other> static void add(Strand& to, Other&& other) {
        if (other.tally.empty())
            return;
        if (to.tally.empty()) {
            to = std::forward<Other>(other);
            return;
        }
        for (std::size_t m = 0; m < to.tally.size(); ++m)
            to.tally[m].add(other.tally[m]);
        to.without_answer += other.without_answer;
        to.refused += other.refused;
        for (std::size_t k = 0; k < to.refusals.size(); ++k) {
            to.refusals[k].count += other.refusals[k].count;
            to.refusals[k].money += other.refusals[k].money;
        }
        for (const WithoutAnswer& trial : other.first_without)
            if (to.first_without.size() < kept_without_answer)
                to.first_without.push_back(trial);
    }

    // A figure of each scramble that has answers.
    template <class Figure>
    static Estimated over(const std::vector<Strand>& scramble, std::size_t measure, Figure figure) {
        std::vector<double> repetitions;
        for (const Strand& strand : scramble)
            if (strand.tally[measure].count > 0)
                repetitions.push_back(figure(strand));
        return estimated(repetitions);
    }

    // The chance of a measure below zero, and its standard error.
    static std::pair<double, double> below_zero(std::size_t measure, const Strand& all,
                                                const std::vector<Strand>& scramble) {
        const auto chance = [&](const Strand& s) {
            return static_cast<double>(s.tally[measure].sums.below_zero) /
                   static_cast<double>(s.tally[measure].count);
        };
        return {chance(all), over(scramble, measure, chance).error};
    }

    void measure(Measured& out, std::size_t m, const Tally& all,
                 const std::vector<Strand>& scramble) const {
        const auto [centre, bins] = frames_[m];
        out.mean = all.mean(centre);
        out.mean_error = over(scramble, m, [&, c = centre](const Strand& s) {
                             return s.tally[m].mean(c);
                         }).error;
        out.spread = all.deviation(centre);
        out.spread_error = over(scramble, m, [&, c = centre](const Strand& s) {
                               return s.tally[m].deviation(c);
                           }).error;
        out.least = all.least();
        out.greatest = all.greatest();
        std::vector<std::vector<double>> repeated; // by scramble with answers, then share
        for (const Strand& strand : scramble)
            if (strand.tally[m].count > 0)
                repeated.push_back(strand.tally[m].percentiles(bins, shares_shown));
        const std::vector<double> whole = all.percentiles(bins, shares_shown);
        for (std::size_t k = 0; k < shares_shown.size(); ++k) {
            std::vector<double> repetitions;
            for (const std::vector<double>& one : repeated)
                repetitions.push_back(one[k]);
            out.percentiles.push_back({shares_shown[k], whole[k], estimated(repetitions).error});
        }
        make_bars(out, all, bins);
    }

    // Of the bins between the first and last that hold a thousandth of the trials together with
    // what is beyond them.
    static void make_bars(Measured& out, const Tally& all, const Bins& bins) {
        constexpr std::array ends{0.001, 0.999};
        const std::vector<double> reach = all.percentiles(bins, ends);
        const double from = reach[0], to = reach[1];
        out.bars.assign(bars, 0);
        out.bars_from = from;
        out.bars_width = std::max((to - from) / bars, 0.0);
        for (std::size_t k = 0; k < all.bin.size(); ++k) {
            if (all.bin[k] == 0)
                continue;
            const double middle = bins.from + (static_cast<double>(k) - 0.5) / bins.per_unit;
            const double place = out.bars_width > 0 ? (middle - from) / out.bars_width : 0;
            out.bars[static_cast<std::size_t>(std::clamp(place, 0.0, bars - 1.0))] += all.bin[k];
        }
    }

    const Trials& trials_;
    const RiskQuestion& question_;
    std::shared_ptr<const PointSet> points_;
    std::vector<Frame> frames_; // by measure
    std::vector<Strand> strands_;
};

} // namespace

lang::Outcome<std::vector<double>> run_trials(const PricedJob& job, const Trials& trials,
                                              const RiskQuestion& question, RiskAnswer& result) {
    Experiment experiment(trials, question);
    if (!experiment.pilot())
        return lang::placeless(
            lang::Code::Q005,
            fmt::format("none of {} trials has an answer", pilot_batches * points_in_batch), {},
            {"price the job at the ends of its swings to see what is in the way"});
    if (!experiment.run())
        return lang::placeless(lang::Code::Q005, "stopped before the trials were done");
    experiment.report(result, trials.at_job(job.values()));
    std::vector<double> centers;
    for (std::size_t m = 0; m < trials.measures(); ++m)
        centers.push_back(experiment.centre(m));
    return centers;
}

} // namespace acre::engine
