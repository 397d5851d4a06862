// What all pictures share: the paper, the type and the inks. An ink means one thing in every
// picture; a picture is light or dark as its reader has asked for.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace acre::cli {

// Units of a picture. It is drawn for a telephone: shown 390 px wide its type is 12 px.
inline constexpr double paper_width = 480;
inline constexpr double paper_edge = 14;
inline constexpr double type_size = 15;
inline constexpr double line_height = 20; // of words below each other

enum class Ink : std::uint8_t {
    Ink,    // words, axes, what is added
    Soft,   // words that explain
    Paper,  // an empty bar with an edge: the low end of a swing, what is taken away
    Rule,   // lines that help to read
    Tint,   // how often; areas
    Ground, // this job; the high end of a swing; the first of several
    Fault,  // a loss or an error, nothing else
    Fit,    // the second of several
    Water,  // the third; the middle of many trials
    Plum,   // the fourth; the edge of many trials
};

// Several curves are told apart by dash and letter as well as by ink, so that a black-and-white
// print reads. They repeat after 8.
struct Series {
    Ink ink;
    std::string_view dashes; // as stroke-dasharray; empty: a whole line
};
Series series(std::size_t i);

// Shades from the least to the greatest, of `shade_count` steps; on dark paper the greatest is the
// brightest. Words on a shade from `shade_turns` on are in Ink::Paper.
inline constexpr std::size_t shade_count = 24;
inline constexpr std::size_t shade_turns = 12;
std::size_t shade_of(double share); // 0 to 1

enum class Anchor : std::uint8_t { Start, Middle, End };
enum class Weight : std::uint8_t { Plain, Bold };

// About how wide words are drawn, and the lines that fit into `width`: at most four, the last one
// with "..." where something is left out.
double drawn_width(std::string_view words, Weight weight = Weight::Plain);
std::vector<std::string> drawn_lines(std::string_view words, double width,
                                     Weight weight = Weight::Plain);
// One line that fits.
std::string fitting(std::string_view words, double width, Weight weight = Weight::Plain);

// A picture in the making. Words of the user are made safe here and nowhere else.
class Paper {
  public:
    explicit Paper(std::string_view title); // written across the top
    double below_title() const { return below_title_; }

    void text(double x, double y, std::string_view words, Anchor anchor = Anchor::Start,
              Ink ink = Ink::Ink, Weight weight = Weight::Plain);
    // In lines of `width`, the first at `y`. The place of a line after them.
    double lines(double x, double y, double width, std::string_view words, Ink ink = Ink::Ink,
                 Weight weight = Weight::Plain);
    void box(double x, double y, double width, double height, Ink fill,
             std::optional<Ink> edge = std::nullopt);
    void shade(double x, double y, double width, double height, std::size_t shade);
    // `d` as in SVG, not filled.
    void path(std::string_view d, Ink ink, double width = 1, std::string_view dashes = {});
    // `d` as in SVG, closed; holes are left open.
    void area(std::string_view d, Ink fill);
    void ring(double x, double y);
    // "a  name" with a piece of its curve before it, in as many lines as it takes. The next place.
    double key(double y, Series of, std::string_view words, double width = 2);

    std::string finish(double height) &&;

  private:
    std::string title_, body_;
    double below_title_ = 0;
};

} // namespace acre::cli
