// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <tl/expected.hpp>

#include <QByteArray>
#include <QString>

#include <string>
#include <vector>

// What somebody said, piece by piece with its time: WebVTT as the W3C describes it, SubRip, or
// plain text with or without a time before each paragraph. Pure, no I/O.
namespace ramplight {

/// Longest file that is looked at: ten hours of speech are less than one.
constexpr qsizetype maxTranscriptBytes = 8LL * 1024 * 1024;

struct Utterance
{
    std::string text;      ///< UTF-8, one line, tags and entities resolved
    std::string voice;     ///< who speaks, as the file names them; empty where it does not
    int milliseconds = -1; ///< from the start; -1: not said
    int endMilliseconds = -1;
    bool paragraph = false; ///< a paragraph of its own: what was said before is closed

    friend bool operator==(const Utterance&, const Utterance&) = default;
};

/// Something in the file that was not as it should be, and was stepped over.
struct TranscriptWarning
{
    int line = 0; ///< counted from 1
    QString words;

    friend bool operator==(const TranscriptWarning&, const TranscriptWarning&) = default;
};

struct Transcript
{
    enum class Format { WebVtt, SubRip, Plain };
    Format format = Format::Plain;
    std::vector<Utterance> utterances;
    std::vector<TranscriptWarning> warnings; ///< at most 50
};

/// The words why not when the file is no transcript. The format is told from the content.
[[nodiscard]] tl::expected<Transcript, QString> parseTranscript(const QByteArray& file);

} // namespace ramplight
