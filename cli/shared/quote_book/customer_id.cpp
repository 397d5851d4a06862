#include "cli/shared/quote_book/customer_id.h"

#include "engine/book/seal.h"

namespace acre::cli {

std::string customer_id(const std::string& name) {
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
