// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/phrasepattern.h"

namespace ramplight::spoken {

namespace {

std::vector<std::string_view> split(std::string_view text, char by)
{
    std::vector<std::string_view> parts;
    int depth = 0;
    std::size_t start = 0;
    for (std::size_t i = 0; i <= text.size(); ++i) {
        const char c = i < text.size() ? text[i] : by;
        depth += c == '{' || c == '(' ? 1 : c == '}' || c == ')' ? -1 : 0;
        if (i == text.size() || (c == by && depth == 0)) {
            parts.push_back(text.substr(start, i - start));
            start = i + 1;
        }
    }
    return parts;
}

/// The forms of one word; an empty one where it may be left out.
std::vector<std::string> formsOf(std::string_view word)
{
    std::vector<std::string> forms;
    if (word.size() > 2 && word.front() == '(' && word.back() == ')') {
        forms = formsOf(word.substr(1, word.size() - 2));
        forms.emplace_back();
        return forms;
    }
    for (const std::string_view choice : split(word, '|')) {
        const std::size_t open = choice.find('{');
        const std::size_t close = choice.find('}');
        if (open == std::string_view::npos || close == std::string_view::npos) {
            forms.emplace_back(choice);
            continue;
        }
        for (const std::string_view ending : split(choice.substr(open + 1, close - open - 1), ','))
            forms.push_back(std::string(choice.substr(0, open)) + std::string(ending) +
                            std::string(choice.substr(close + 1)));
    }
    return forms;
}

} // namespace

std::vector<std::vector<std::string>> phrasesOf(std::string_view pattern)
{
    constexpr std::size_t most = 4096;
    std::vector<std::vector<std::string>> phrases{{}};
    for (const std::string_view word : split(pattern, ' ')) {
        if (word.empty())
            continue;
        std::vector<std::vector<std::string>> longer;
        for (const auto& phrase : phrases)
            for (const std::string& form : formsOf(word)) {
                if (longer.size() >= most)
                    break;
                longer.push_back(phrase);
                if (!form.empty())
                    longer.back().push_back(form);
            }
        phrases = std::move(longer);
    }
    std::erase_if(phrases, [](const auto& phrase) { return phrase.empty(); });
    return phrases;
}

} // namespace ramplight::spoken
