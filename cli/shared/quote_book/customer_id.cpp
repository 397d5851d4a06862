#include "cli/shared/quote_book/customer_id.h"

#include "engine/book/seal.h"

namespace acre::cli {

namespace {

// Blanks around a name and doubled ones are slips of typing that nobody sees.
std::string without_stray_blanks(const std::string& name) {
    std::string out;
    for (const char c : name)
        if (c != ' ')
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += c;
    if (!out.empty() && out.back() == ' ')
        out.pop_back();
    return out;
}

} // namespace

std::string customer_id(const std::string& as_written) {
    const std::string name = without_stray_blanks(as_written);
    std::string id;
    for (const char c : name) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (letter)
            id += c;
        else if (c >= 'A' && c <= 'Z')
            id += static_cast<char>(c - 'A' + 'a');
        else if (!id.empty() && id.back() != '-')
            id += '-';
        if (id.size() == 40)
            break;
    }
    if (!id.empty() && id.back() != '-')
        id += '-';
    return id + engine::sha256(name).substr(0, 6);
}

} // namespace acre::cli
