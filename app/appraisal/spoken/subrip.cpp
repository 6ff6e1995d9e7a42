// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/textlines.h"

namespace ramplight::spoken {

namespace {

bool isNumber(std::string_view line)
{
    line = trimmed(line);
    return !line.empty() && line.find_first_not_of("0123456789") == std::string_view::npos;
}

} // namespace

void parseSubRip(std::string_view text, Transcript& out)
{
    TextLines lines(text);
    Utterance cue;
    bool open = false;
    RollingLines rolling;
    const auto keep = [&] {
        rolling.endCue();
        if (!isBlank(cue.text))
            out.utterances.push_back(cue);
        cue = {};
        open = false;
    };
    while (const auto line = lines.next()) {
        if (line->find("-->") != std::string_view::npos) {
            const auto time = timing(*line, false);
            keep();
            if (!time) {
                warn(out, lines.number(),
                     "this time cannot be read; its words follow the last one");
                if (!out.utterances.empty())
                    cue.milliseconds = out.utterances.back().milliseconds;
            } else {
                cue.milliseconds = time->start;
                cue.endMilliseconds = time->end;
            }
            open = true;
            continue;
        }
        if (isBlank(*line))
            continue;
        // A number above a time, or alone between two empty lines, counts the cues.
        const auto next = lines.peek();
        if (isNumber(*line) && (!next || next->find("-->") != std::string_view::npos))
            continue;
        if (!open) {
            warn(out, lines.number(), "words without a time");
            open = true;
        }
        Utterance shown;
        appendCueText(*line, shown);
        if (!rolling.isNew(shown.text))
            continue;
        if (!cue.text.empty())
            cue.text += ' ';
        cue.text += shown.text;
    }
    keep();
}

} // namespace ramplight::spoken
