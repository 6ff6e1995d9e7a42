// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/drafting.h"
#include "appraisal/spoken/heardwords.h"
#include "evidence/transcriptstore.h"
#include "kiosk/spokenfiles.h"

#include <tl/expected.hpp>

#include <functional>
#include <memory>
#include <mutex>

namespace ramplight {

/// Where spoken walk-rounds come from and where they are kept.
struct SpeechPlaces
{
    QString dropFolder;
    QStringList sticks;  ///< folders under which sticks are mounted
    QString transcripts; ///< folder of the words that were read
    QString corrections; ///< file of what reviewers changed
    /// JSON of the house's language; asked when the first transcript is read, not at the start.
    std::function<QByteArray()> lexicon;
    QString language;
};

/// The desk's work on transcripts: finding, reading, keeping and showing them. Synchronous; used on
/// the pool by several threads. Errors are words for a person.
class TranscriptRoom
{
public:
    explicit TranscriptRoom(SpeechPlaces places);

    [[nodiscard]] tl::expected<std::vector<WaitingTranscript>, QString> waiting() const;
    /// Read, and the words kept: what is left to do is the command.
    [[nodiscard]] tl::expected<DraftedRound, QString> draft(const QString& path,
                                                            TrafficSide traffic);
    [[nodiscard]] tl::expected<SpokenText, QString> text(const SpokenRound& round);
    [[nodiscard]] tl::expected<void, QString>
    keepCorrection(const SpokenRound& round, int draft,
                   const std::optional<FindingData>& corrected);

private:
    [[nodiscard]] tl::expected<std::shared_ptr<const spoken::Lexicon>, QString> lexicon();
    [[nodiscard]] tl::expected<HeardWords, QString> heard(const SpokenRound& round);
    [[nodiscard]] QString recordingNamed(const QString& transcriptName) const;

    SpeechPlaces m_places;
    TranscriptStore m_store;
    std::mutex m_reading; ///< guards the lexicon and the corrections' file
    std::shared_ptr<const spoken::Lexicon> m_lexicon;
};

} // namespace ramplight
