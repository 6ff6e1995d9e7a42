// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/code128.h"

#include <array>

namespace ramplight {

namespace {

constexpr int startB = 104;
constexpr int stop = 106;
constexpr int modulus = 103;

/// Bar, space, bar, space, bar, space of each symbol character; the stop has a bar more.
constexpr std::array patterns{
    "212222", "222122", "222221", "121223", "121322", "131222", "122213", "122312", "132212",
    "221213", "221312", "231212", "112232", "122132", "122231", "113222", "123122", "123221",
    "223211", "221132", "221231", "213212", "223112", "312131", "311222", "321122", "321221",
    "312212", "322112", "322211", "212123", "212321", "232121", "111323", "131123", "131321",
    "112313", "132113", "132311", "211313", "231113", "231311", "112133", "112331", "132131",
    "113123", "113321", "133121", "313121", "211331", "231131", "213113", "213311", "213131",
    "311123", "311321", "331121", "312113", "312311", "332111", "314111", "221411", "431111",
    "111224", "111422", "121124", "121421", "141122", "141221", "112214", "112412", "122114",
    "122411", "142112", "142211", "241211", "221114", "413111", "241112", "134111", "111242",
    "121142", "121241", "114212", "124112", "124211", "411212", "421112", "421211", "212141",
    "214121", "412121", "111143", "111341", "131141", "114113", "114311", "411113", "411311",
    "113141", "114131", "311141", "411131", "211412", "211214", "211232", "2331112"};

} // namespace

std::vector<int> code128(const QString& text)
{
    std::vector<int> values{startB};
    int sum = startB;
    for (const QChar c : text) {
        if (c < u' ' || c > u'~')
            return {};
        const int value = c.unicode() - u' ';
        sum += value * static_cast<int>(values.size());
        values.push_back(value);
    }
    if (text.isEmpty())
        return {};
    values.push_back(sum % modulus);
    values.push_back(stop);
    std::vector<int> widths;
    for (const int value : values)
        for (const char* width = patterns.at(static_cast<std::size_t>(value)); *width != 0; ++width)
            widths.push_back(*width - '0');
    return widths;
}

} // namespace ramplight
