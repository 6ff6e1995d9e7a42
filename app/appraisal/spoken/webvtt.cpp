// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/textlines.h"

// The parser of the W3C's WebVTT, as far as words, times and voices go: it reads what the
// specification's own algorithm reads, and says where it had to step over something.
namespace ramplight::spoken {

namespace {

/// A block that is not a cue: everything to the next empty line, but "-->" always begins a cue.
void skipBlock(TextLines& lines)
{
    while (const auto line = lines.peek()) {
        if (line->find("-->") != std::string_view::npos)
            return;
        (void)lines.next();
        if (line->empty())
            return;
    }
}

bool startsWithWord(std::string_view line, std::string_view word)
{
    return line.substr(0, word.size()) == word &&
           (line.size() == word.size() || line[word.size()] == ' ' || line[word.size()] == '\t');
}

/// The lines of one cue, each voice an utterance of its own.
void readCue(TextLines& lines, const Timing& time, RollingLines& rolling, Transcript& out)
{
    Utterance cue;
    cue.milliseconds = time.start;
    cue.endMilliseconds = time.end;
    const auto keep = [&] {
        if (!isBlank(cue.text))
            out.utterances.push_back(cue);
        cue.text.clear();
        cue.voice.clear();
    };
    while (const auto line = lines.peek()) {
        if (line->empty() || line->find("-->") != std::string_view::npos)
            break;
        (void)lines.next();
        std::string_view rest = *line;
        // A voice in the middle of a cue begins another utterance.
        for (std::size_t next = 0; (next = rest.find("<v", 1)) != std::string_view::npos;) {
            appendCueText(rest.substr(0, next), cue);
            keep();
            rest.remove_prefix(next);
        }
        if (rest.substr(0, 2) == "<v" && !cue.text.empty())
            keep();
        Utterance shown;
        shown.voice = cue.voice;
        appendCueText(rest, shown);
        cue.voice = shown.voice;
        if (!rolling.isNew(shown.text))
            continue;
        if (!cue.text.empty())
            cue.text += ' ';
        cue.text += shown.text;
    }
    rolling.endCue();
    keep();
}

} // namespace

void parseWebVtt(std::string_view text, Transcript& out)
{
    TextLines lines(text);
    (void)lines.next(); // the signature
    // What stands right under the signature is its header.
    skipBlock(lines);
    bool cueSeen = false;
    RollingLines rolling;
    while (const auto line = lines.next()) {
        if (line->empty())
            continue;
        if (!cueSeen && (startsWithWord(*line, "STYLE") || startsWithWord(*line, "REGION"))) {
            skipBlock(lines);
            continue;
        }
        if (line->find("-->") == std::string_view::npos) {
            if (startsWithWord(*line, "NOTE")) {
                skipBlock(lines);
                continue;
            }
            // An identifier, if the times follow; otherwise a block that the specification drops.
            const auto next = lines.peek();
            if (!next || next->find("-->") == std::string_view::npos) {
                warn(out, lines.number(), "text without a time was stepped over");
                skipBlock(lines);
            }
            continue;
        }
        const auto time = timing(*line, true);
        if (!time) {
            warn(out, lines.number(), "this time cannot be read; its words were stepped over");
            skipBlock(lines);
            continue;
        }
        cueSeen = true;
        readCue(lines, *time, rolling, out);
    }
}

} // namespace ramplight::spoken
