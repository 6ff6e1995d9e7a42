// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/textlines.h"

#include <array>

namespace ramplight::spoken {

namespace {

void appendCodePoint(unsigned long code, std::string& out)
{
    if (code == 0 || code > 0x10ffff || (code >= 0xd800 && code < 0xe000))
        code = 0xfffd;
    if (code < 0x80) {
        out += char(code);
    } else if (code < 0x800) {
        out += char(0xc0 | (code >> 6));
        out += char(0x80 | (code & 0x3f));
    } else if (code < 0x10000) {
        out += char(0xe0 | (code >> 12));
        out += char(0x80 | ((code >> 6) & 0x3f));
        out += char(0x80 | (code & 0x3f));
    } else {
        out += char(0xf0 | (code >> 18));
        out += char(0x80 | ((code >> 12) & 0x3f));
        out += char(0x80 | ((code >> 6) & 0x3f));
        out += char(0x80 | (code & 0x3f));
    }
}

/// "#233" or "#xe9"; false when it is no number.
bool appendNumbered(std::string_view name, std::string& out)
{
    name.remove_prefix(1);
    const bool hex = !name.empty() && (name.front() == 'x' || name.front() == 'X');
    if (hex)
        name.remove_prefix(1);
    if (name.empty() || name.size() > 8)
        return false;
    unsigned long code = 0;
    for (const char c : name) {
        int digit = -1;
        if (c >= '0' && c <= '9')
            digit = c - '0';
        else if (hex && c >= 'a' && c <= 'f')
            digit = c - 'a' + 10;
        else if (hex && c >= 'A' && c <= 'F')
            digit = c - 'A' + 10;
        if (digit < 0)
            return false;
        code = code * (hex ? 16 : 10) + unsigned(digit);
    }
    appendCodePoint(code, out);
    return true;
}

bool appendNamed(std::string_view name, std::string& out)
{
    using Pair = std::pair<std::string_view, std::string_view>;
    static constexpr std::array<Pair, 22> names{
        {{"amp", "&"},    {"lt", "<"},     {"gt", ">"},     {"nbsp", " "},    {"lrm", ""},
         {"rlm", ""},     {"quot", "\""},  {"apos", "'"},   {"rsquo", "'"},   {"lsquo", "'"},
         {"ldquo", "\""}, {"rdquo", "\""}, {"ndash", "-"},  {"mdash", " - "}, {"hellip", "..."},
         {"pound", "£"},  {"euro", "€"},   {"frac12", "½"}, {"frac14", "¼"},  {"frac34", "¾"},
         {"times", "x"},  {"shy", ""}}};
    for (const auto& [known, text] : names)
        if (known == name) {
            out += text;
            return true;
        }
    return false;
}

} // namespace

void appendUnescaped(std::string_view raw, std::string& out)
{
    while (!raw.empty()) {
        const std::size_t at = raw.find('&');
        out += raw.substr(0, at);
        if (at == std::string_view::npos)
            return;
        raw.remove_prefix(at);
        const std::size_t end = raw.substr(0, 12).find(';');
        const std::string_view name =
            end == std::string_view::npos ? std::string_view() : raw.substr(1, end - 1);
        const bool known = !name.empty() && (name.front() == '#' ? appendNumbered(name, out)
                                                                 : appendNamed(name, out));
        if (!known)
            out += '&';
        raw.remove_prefix(known ? end + 1 : 1);
    }
}

bool RollingLines::isNew(const std::string& line)
{
    const std::string words{trimmed(line)};
    m_now.push_back(words);
    if (m_fresh)
        return true;
    for (const std::string& before : m_before)
        if (before == words && words.find(' ') != std::string::npos)
            return false;
    m_fresh = true;
    return true;
}

void RollingLines::endCue()
{
    m_before.swap(m_now);
    m_now.clear();
    m_fresh = false;
}

void appendCueText(std::string_view raw, Utterance& cue)
{
    while (!raw.empty()) {
        const std::size_t open = raw.find('<');
        appendUnescaped(raw.substr(0, open), cue.text);
        if (open == std::string_view::npos)
            return;
        raw.remove_prefix(open + 1);
        // A tag that is never closed takes in the rest, as the specification's tokenizer does.
        const std::size_t close = raw.find('>');
        const std::string_view tag = raw.substr(0, close);
        raw.remove_prefix(close == std::string_view::npos ? raw.size() : close + 1);
        const std::size_t nameEnd = tag.find_first_of(" \t.");
        if (tag.substr(0, nameEnd) == "rt") {
            // A reading aid above the text is said by nobody.
            const std::size_t end = raw.find("</rt");
            raw.remove_prefix(end == std::string_view::npos ? raw.size() : end);
        } else if (tag.substr(0, nameEnd) == "v" && nameEnd != std::string_view::npos) {
            const std::size_t space = tag.find_first_of(" \t");
            if (space != std::string_view::npos && cue.voice.empty())
                appendUnescaped(trimmed(tag.substr(space)), cue.voice);
        }
    }
}

} // namespace ramplight::spoken
