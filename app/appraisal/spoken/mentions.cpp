// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/mentions.h"

namespace ramplight::spoken {

const Sense* Mention::sense(SenseKind kind) const
{
    for (const Sense& one : senses)
        if (one.kind == kind)
            return &one;
    return nullptr;
}

bool Mention::has(Cue cue) const
{
    for (const Sense& one : senses)
        if (one.kind == SenseKind::Cue && one.id == int(cue))
            return true;
    return false;
}

const Sense* Mention::placeSense() const
{
    for (const Sense& one : senses)
        if (one.kind == SenseKind::Side || one.kind == SenseKind::Axle ||
            one.kind == SenseKind::Amount || one.kind == SenseKind::Base)
            return &one;
    return nullptr;
}

std::vector<Mention> mentionsIn(const Speech& speech, const Lexicon& lexicon)
{
    std::vector<Mention> found;
    const auto& tokens = speech.tokens;
    found.reserve(tokens.size() / 2);
    for (std::size_t i = 0; i < tokens.size();) {
        int node = 0;
        std::size_t longest = 0;
        int best = -1;
        for (std::size_t k = i; k < tokens.size() && tokens[k].word != 0; ++k) {
            // A phrase does not reach over a stop or a comma.
            if (k > i && (tokens[k].before != Break::None || tokens[k].turn))
                break;
            node = lexicon.step(node, tokens[k].word);
            if (node < 0)
                break;
            if (!lexicon.senses(node).empty()) {
                longest = k - i + 1;
                best = node;
            }
        }
        if (longest == 0) {
            ++i;
            continue;
        }
        found.push_back({std::uint32_t(i), std::uint32_t(i + longest - 1), lexicon.senses(best)});
        i += longest;
    }
    return found;
}

} // namespace ramplight::spoken
