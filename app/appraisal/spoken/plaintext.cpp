// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/textlines.h"

namespace ramplight::spoken {

void parsePlain(std::string_view text, Transcript& out)
{
    TextLines lines(text);
    Utterance paragraph;
    int last = -1;
    const auto keep = [&] {
        if (!isBlank(paragraph.text)) {
            paragraph.paragraph = true;
            out.utterances.push_back(paragraph);
        }
        paragraph = {};
        paragraph.milliseconds = last;
    };
    while (const auto line = lines.next()) {
        std::string_view rest = trimmed(*line);
        if (rest.empty()) {
            keep();
            continue;
        }
        if (rest.front() == '[') {
            std::string_view stamp = rest.substr(1);
            const auto time = takeTime(stamp, false);
            if (time && !stamp.empty() && stamp.front() == ']') {
                keep();
                if (*time < last)
                    warn(out, lines.number(), "the time runs backwards here");
                last = *time;
                paragraph.milliseconds = last;
                rest = trimmed(stamp.substr(1));
            } else if (stamp.size() < rest.size() - 1 ||
                       (rest.size() > 1 && rest[1] >= '0' && rest[1] <= '9')) {
                warn(out, lines.number(), "this time cannot be read");
                const std::size_t end = rest.find(']');
                rest =
                    end == std::string_view::npos ? rest.substr(1) : trimmed(rest.substr(end + 1));
            }
        }
        if (!paragraph.text.empty())
            paragraph.text += ' ';
        paragraph.text += rest;
    }
    keep();
}

} // namespace ramplight::spoken
