// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/textlines.h"

namespace ramplight::spoken {

namespace {

/// Up to nine digits; how many there were in count.
int takeDigits(std::string_view& text, int& count)
{
    int value = 0;
    count = 0;
    while (!text.empty() && isDigit(text.front()) && count < 9) {
        value = value * 10 + (text.front() - '0');
        text.remove_prefix(1);
        ++count;
    }
    return value;
}

bool takeChar(std::string_view& text, char wanted)
{
    if (text.empty() || text.front() != wanted)
        return false;
    text.remove_prefix(1);
    return true;
}

void skipSpace(std::string_view& text)
{
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
        text.remove_prefix(1);
}

} // namespace

bool isDigit(char c)
{
    return c >= '0' && c <= '9';
}

std::optional<std::string_view> TextLines::next()
{
    if (m_rest.empty())
        return std::nullopt;
    ++m_number;
    const std::size_t end = m_rest.find_first_of("\r\n");
    const std::string_view line = m_rest.substr(0, end);
    if (end == std::string_view::npos) {
        m_rest = {};
        return line;
    }
    const bool pair = m_rest[end] == '\r' && end + 1 < m_rest.size() && m_rest[end + 1] == '\n';
    m_rest.remove_prefix(end + (pair ? 2 : 1));
    return line;
}

std::optional<std::string_view> TextLines::peek() const
{
    if (m_rest.empty())
        return std::nullopt;
    return m_rest.substr(0, m_rest.find_first_of("\r\n"));
}

std::string_view trimmed(std::string_view text)
{
    const std::size_t first = text.find_first_not_of(" \t\f");
    if (first == std::string_view::npos)
        return {};
    return text.substr(first, text.find_last_not_of(" \t\f") - first + 1);
}

bool isBlank(std::string_view text)
{
    return trimmed(text).empty();
}

void warn(Transcript& transcript, int line, const char* words)
{
    constexpr std::size_t most = 50;
    if (transcript.warnings.size() < most)
        transcript.warnings.push_back({line, QString::fromUtf8(words)});
}

std::optional<int> takeTime(std::string_view& text, bool strict)
{
    std::string_view rest = text;
    int digits = 0;
    std::int64_t parts[3] = {0, 0, 0};
    int count = 0;
    for (; count < 3; ++count) {
        parts[count] = takeDigits(rest, digits);
        // Hours may have any number of digits from two on; what comes after them has two.
        if (digits == 0 || (strict && digits < 2) || (count > 0 && digits != 2 && strict))
            return std::nullopt;
        if (count == 2 || !takeChar(rest, ':')) {
            ++count;
            break;
        }
    }
    if (count < 2)
        return std::nullopt;
    std::int64_t thousandths = 0;
    if (takeChar(rest, '.') || (!strict && takeChar(rest, ','))) {
        thousandths = takeDigits(rest, digits);
        if (strict ? digits != 3 : digits == 0)
            return std::nullopt;
        for (; digits < 3; ++digits)
            thousandths *= 10;
        for (; digits > 3; --digits)
            thousandths /= 10;
    } else if (strict) {
        return std::nullopt;
    }
    const std::int64_t hours = count == 3 ? parts[0] : 0;
    const std::int64_t minutes = count == 3 ? parts[1] : parts[0];
    const std::int64_t seconds = count == 3 ? parts[2] : parts[1];
    if (seconds > 59 || (count == 3 && minutes > 59) || (strict && minutes > 59) || hours > 500 ||
        minutes > 30'000)
        return std::nullopt;
    text = rest;
    return int(((hours * 60 + minutes) * 60 + seconds) * 1000 + thousandths);
}

std::optional<Timing> timing(std::string_view line, bool strict)
{
    skipSpace(line);
    const auto start = takeTime(line, strict);
    if (!start)
        return std::nullopt;
    skipSpace(line);
    if (line.substr(0, 3) != "-->")
        return std::nullopt;
    line.remove_prefix(3);
    skipSpace(line);
    const auto end = takeTime(line, strict);
    if (!end)
        return std::nullopt;
    return Timing{*start, *end};
}

} // namespace ramplight::spoken
