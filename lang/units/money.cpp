#include "lang/units/money.h"

#include <array>

namespace acre::lang {
namespace {

constexpr std::string_view codes =
    " AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP"
    " BYN BZD CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP"
    " GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR"
    " KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK"
    " MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR"
    " SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS"
    " UAH UGX USD UYU UZS VES VND VUV WST XAF XCD XOF XPF YER ZAR ZMW ";

struct Sign {
    std::string_view sign;
    std::string_view code; // whose it is, unless a firm says otherwise
};
constexpr auto signs =
    std::to_array<Sign>({{"$", "USD"}, {"\u20AC", "EUR"}, {"\u00A3", "GBP"}, {"\u00A5", "JPY"}});

Currency& in_force() {
    thread_local Currency money;
    return money;
}

} // namespace

std::string_view Currency::word() const {
    return sign.empty() || money_sign_size(sign) != sign.size() ? std::string_view(code) : sign;
}

bool is_money_code(std::string_view word) {
    return word.size() == 3 && word[0] >= 'A' && word[0] <= 'Z' &&
           word.find(' ') == std::string_view::npos && codes.find(word) != std::string_view::npos;
}

std::size_t money_sign_size(std::string_view text) {
    for (const Sign& row : signs)
        if (text.starts_with(row.sign))
            return row.sign.size();
    return 0;
}

std::string_view code_of_sign(std::string_view sign) {
    for (const Sign& row : signs)
        if (sign == row.sign)
            return row.code;
    return {};
}

bool has_dollars(std::string_view code) {
    constexpr std::string_view list =
        "ARS AUD BBD BMD BND BRL BSD BZD CAD CLP COP CVE DOP FJD GYD HKD JMD KYD LRD MXN NAD NIO "
        "NZD SBD SGD SRD TOP TTD TWD USD UYU WST XCD";
    return code.size() == 3 && list.find(code) != std::string_view::npos;
}

const Currency& shown_money() {
    return in_force();
}

void show_money(const Currency& money) {
    in_force() = money;
}

} // namespace acre::lang
