#include "engine/book/keys.h"

#include <algorithm>

#include "engine/book/texts.h"

namespace acre::engine {

const Signer* Keys::find(const std::string& key) const {
    const auto found = std::find_if(signers_.begin(), signers_.end(),
                                    [&](const Signer& one) { return one.key == key; });
    return found == signers_.end() ? nullptr : &*found;
}

std::size_t Keys::current() const {
    return static_cast<std::size_t>(std::count_if(
        signers_.begin(), signers_.end(), [](const Signer& one) { return one.retired == 0; }));
}

std::string Keys::why_not(const std::string& key) const {
    if (!is_signed())
        return key.empty() ? "" : "is signed, and no key was admitted before it";
    if (key.empty())
        return "is not signed, and every record since the first key is";
    const Signer* signer = find(key);
    if (signer == nullptr)
        return "is signed by a key that was never admitted";
    return signer->retired == 0 ? "" : "is signed by a key that was retired before it";
}

std::string Keys::why_not_change(const std::string& action, const std::string& key,
                                 const std::string& signer) const {
    if (!is_seal(key)) // as long as one
        return "names a key that is none";
    if (action == "admit") {
        if (!is_signed())
            return signer == key ? "" : "states the first key, and is not signed by it";
        if (find(key) != nullptr)
            return "admits a key that was admitted before";
    } else if (action == "retire") {
        const Signer* known = find(key);
        if (known == nullptr || known->retired != 0)
            return "retires a key that is not current";
        if (current() == 1)
            return "retires the last key, so that nobody could sign";
    } else {
        return "neither admits a key nor retires one";
    }
    return why_not(signer);
}

std::string Keys::add(const Event& event) {
    std::string broken = event.kind == "key" && event.version != 1
                             ? why_not_change(event.action, event.key, event.signer)
                         : event.version == 1 ? std::string()
                                              : why_not(event.signer);
    const bool first = !is_signed();
    const auto signer = std::find_if(signers_.begin(), signers_.end(),
                                     [&](const Signer& one) { return one.key == event.signer; });
    if (signer != signers_.end()) {
        ++signer->signed_here;
        if (broken.empty() && !given_.empty() && !signer->trusted)
            broken = "is signed by a key that was not given";
    }
    if (event.kind == "key" && broken.empty())
        change(event);
    else if (first)
        ++unsigned_;
    if (first && is_signed() && !given_.empty() && !signers_.front().trusted)
        broken = "states a first key that was not given";
    return broken;
}

void Keys::change(const Event& event) {
    if (event.action == "retire") {
        for (Signer& one : signers_)
            if (one.key == event.key)
                one.retired = event.record;
        return;
    }
    const bool first = signers_.empty();
    const Signer* by = find(event.signer);
    const bool trusted =
        given_.empty() || given_.contains(event.key) || (by != nullptr && by->trusted && !first);
    signers_.push_back({event.key, event.name, event.record, 0, first ? 1 : 0, trusted});
}

std::vector<std::string> Keys::given_and_missing() const {
    std::vector<std::string> missing;
    for (const std::string& key : given_)
        if (find(key) == nullptr)
            missing.push_back(key);
    return missing;
}

} // namespace acre::engine
