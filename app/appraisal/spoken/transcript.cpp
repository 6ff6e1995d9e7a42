// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/textlines.h"

namespace ramplight {

using namespace spoken;

namespace {

/// A byte of 0 or many other control characters: no text at all.
bool isBinary(std::string_view text)
{
    std::size_t odd = 0;
    const std::string_view start = text.substr(0, 65536);
    for (const char c : start) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte == 0)
            return true;
        if (byte < 0x20 && c != '\n' && c != '\r' && c != '\t' && c != '\f')
            ++odd;
    }
    return odd * 100 > start.size();
}

/// Looks at the first lines for a time as SubRip writes it.
bool looksLikeSubRip(std::string_view text)
{
    TextLines lines(text);
    for (int i = 0; i < 40; ++i) {
        const auto line = lines.next();
        if (!line)
            return false;
        if (line->find("-->") != std::string_view::npos)
            return true;
    }
    return false;
}

/// JSON, XML, HTML: something for a program.
bool looksLikeData(std::string_view text)
{
    const std::size_t first = text.find_first_not_of(" \t\r\n");
    if (first == std::string_view::npos)
        return false;
    const std::string_view rest = text.substr(first);
    return rest.front() == '{' || rest.substr(0, 2) == "[{" || rest.substr(0, 2) == "<?" ||
           rest.substr(0, 2) == "<!" || rest.substr(0, 5) == "<html" || rest.substr(0, 4) == "%PDF";
}

bool hasWords(std::string_view text)
{
    int letters = 0;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if ((byte | 0x20) >= 'a' && (byte | 0x20) <= 'z' && ++letters >= 2)
            return true;
    }
    return false;
}

} // namespace

tl::expected<Transcript, QString> parseTranscript(const QByteArray& file)
{
    if (file.size() > maxTranscriptBytes)
        return tl::unexpected(QStringLiteral("This file is too large for a transcript."));
    std::string_view text(file.constData(), std::size_t(file.size()));
    if (text.substr(0, 3) == "\xef\xbb\xbf")
        text.remove_prefix(3);
    if (isBlank(text))
        return tl::unexpected(QStringLiteral("This file is empty."));
    if (isBinary(text))
        return tl::unexpected(
            QStringLiteral("This is no transcript: it is not text. Ramplight reads WebVTT, SubRip "
                           "and plain text in UTF-8."));
    Transcript out;
    const bool vtt =
        text.substr(0, 6) == "WEBVTT" &&
        (text.size() == 6 || std::string_view(" \t\r\n").find(text[6]) != std::string_view::npos);
    if (vtt) {
        out.format = Transcript::Format::WebVtt;
        parseWebVtt(text, out);
    } else if (looksLikeSubRip(text)) {
        out.format = Transcript::Format::SubRip;
        parseSubRip(text, out);
    } else {
        if (looksLikeData(text) || !hasWords(text))
            return tl::unexpected(
                QStringLiteral("This is no transcript. Ramplight reads WebVTT, SubRip and plain "
                               "text in UTF-8."));
        parsePlain(text, out);
    }
    if (out.utterances.empty())
        return tl::unexpected(QStringLiteral("Nobody says anything in this transcript."));
    return out;
}

} // namespace ramplight
