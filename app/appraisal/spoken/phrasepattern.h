// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <string>
#include <string_view>
#include <vector>

// The short way in which a lexicon writes several phrases at once. Words are apart by spaces;
// "a|b" is one or the other, "scratch{,es,ed}" a word with its endings, "(front)" may be left out.
namespace ramplight::spoken {

/// Every phrase that a pattern stands for, each as its words; at most 4096.
[[nodiscard]] std::vector<std::vector<std::string>> phrasesOf(std::string_view pattern);

} // namespace ramplight::spoken
