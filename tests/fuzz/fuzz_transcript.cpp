// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Transcripts and captions (WebVTT, SubRip, text): read as each language and as driven on each
// side, and what is understood held against what must always be so.
#include "fuzzing.h"

#include "appraisal/spoken/heardwords.h"
#include "appraisal/spoken/reading.h"

#include <QFile>

using namespace ramplight;
using fuzz::must;

namespace {

spoken::Lexicon lexicon(const char* language)
{
    QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/assets/lexicon/%1.json")
                   .arg(QLatin1String(language)));
    must(file.open(QIODevice::ReadOnly), "the lexicon is there");
    auto read = spoken::Lexicon::read(file.readAll());
    must(read.has_value(), "the lexicon can be read");
    return std::move(*read);
}

void look(const SpokenReading& reading)
{
    for (const SpokenFinding& it : reading.findings) {
        must(placeInfo(it.place) != nullptr, "a finding is somewhere");
        must(it.confidence > 0 && it.confidence < 1, "a confidence is a share");
    }
    for (const SpokenTread& it : reading.treads)
        must(it.lowTenthsMm > 0 && it.highTenthsMm >= it.lowTenthsMm && it.highTenthsMm <= 200 &&
                 placeInfo(it.place) != nullptr,
             "a depth of a tyre");
    for (const PlaceId& place : reading.sound)
        for (const SpokenFinding& it : reading.findings)
            must(it.place != place, "what is sound has no finding on it");
    must(!readingJson(reading).isEmpty(), "it can be written");
    must(!readingWords(reading, {}).isNull(), "it can be told");
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    static const spoken::Lexicon english = lexicon("en");
    static const spoken::Lexicon german = lexicon("de");
    const auto transcript = parseTranscript(
        QByteArray(reinterpret_cast<const char*>(data), static_cast<qsizetype>(size)));
    if (!transcript) {
        must(!transcript.error().isEmpty(), "a refusal has words");
        return 0;
    }
    look(readSpeech(*transcript, english, Traffic::Left));
    look(readSpeech(*transcript, german, Traffic::Right));
    std::ignore = heardWords(*transcript, english);
    return 0;
}
