// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/corrections.h"
#include "appraisal/drafting.h"
#include "cli/commandline.h"
#include "cli/shipped.h"
#include "evidence/transcriptstore.h"

#include <QFile>
#include <QFileInfo>

namespace ramplight::cli {

namespace {

/// How a transcript is to be read.
struct Manner
{
    QString language;
    TrafficSide traffic = TrafficSide::Left;
    bool trafficSaid = false;
};

tl::expected<spoken::Lexicon, QString> lexiconOf(const QString& language)
{
    const QByteArray json = shippedLexicon(language);
    if (json.isEmpty())
        return tl::unexpected(
            QStringLiteral("There is no lexicon for this language: %1.").arg(language));
    return spoken::Lexicon::read(json);
}

void warn(const QString& path, const QStringList& warnings, Terminal& terminal)
{
    for (const QString& warning : warnings)
        terminal.err << path << ", " << warning << "." << Qt::endl;
}

/// What reviewers changed, in the form of the reader's tests.
int printCorrections(Terminal& terminal)
{
    QFile file(terminal.paths.corrections());
    if (!file.exists())
        return Ok;
    if (!file.open(QIODevice::ReadOnly))
        return failed(
            terminal,
            QStringLiteral("%1 cannot be read: %2.").arg(file.fileName(), file.errorString()),
            NoInput);
    for (const Correction& correction : standingCorrections(readCorrections(file.readAll())))
        terminal.out << correctionTest(correction);
    terminal.out.flush();
    return Ok;
}

/// Drafts on a car: they wait at the kiosk, also at one that is running.
int draftFor(const QString& stock, const QString& asName, const QString& path,
             const QByteArray& bytes, const spoken::Lexicon& lexicon, const Manner& manner,
             Terminal& terminal)
{
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    Ledger& ledger = house->store().ledger();
    const auto site = ledger.site();
    const auto car = ledger.carByStockNumber(stock);
    if (!site || !car)
        return failed(terminal, (site ? car.error() : site.error()).words, Unavailable);
    if (!*car)
        return failed(terminal, QStringLiteral("There is no car with stock number %1.").arg(stock),
                      BadData);
    const auto by = actor(*site, asName, Right::Appraise);
    if (!by)
        return failed(terminal, by.error(), NoPermission);
    const auto drafted = draftRound(bytes, QFileInfo(path).fileName(), lexicon, manner.language,
                                    manner.trafficSaid ? manner.traffic : site->rules.trafficSide);
    if (!drafted)
        return failed(terminal, QStringLiteral("%1: %2").arg(path, drafted.error()), BadData);
    warn(path, drafted->warnings, terminal);
    const SpokenRound& round = drafted->round;
    // The words first: no drafts without them.
    const auto kept = TranscriptStore(terminal.paths.transcripts()).keep(round.transcript, bytes);
    if (!kept)
        return failed(terminal, kept.error(), Unavailable);
    const auto outcome = house->workshop().run(
        CarRequest{freshCommand(), *by, **car, {car::TakeSpeech{round}}, false});
    if (!outcome)
        return failed(terminal, QStringLiteral("%1: %2").arg(path, words(outcome.error())),
                      BadData);
    const SpokenReview* review = outcome->car.review(round.transcript);
    terminal.out << outcome->car.identity.stockNumber << ": " << round.drafts.size() << " drafts, "
                 << (review == nullptr ? 0 : review->open()) << " to look at, "
                 << round.depths.size() << " tyre depths, " << round.sound.size()
                 << " places said to be sound, " << round.notMentioned.size() << " not mentioned."
                 << Qt::endl;
    return Ok;
}

} // namespace

int read(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const bool json = takeFlag(arguments, QStringLiteral("--json"));
    const bool corrections = takeFlag(arguments, QStringLiteral("--corrections"));
    const QString traffic = takeOption(arguments, QStringLiteral("--traffic"));
    const QString stock = takeOption(arguments, QStringLiteral("--stock"));
    const QString asName = takeOption(arguments, QStringLiteral("--as"));
    Manner manner;
    manner.language = takeOption(arguments, QStringLiteral("--language"));
    if (manner.language.isEmpty()) {
        // The house's own, where there is a house.
        const auto settings = HouseSettings::read(terminal.paths);
        manner.language = settings ? settings->language : QStringLiteral("en");
    }
    if (corrections)
        return arguments.isEmpty() ? printCorrections(terminal)
                                   : usage(terminal, *find(QStringLiteral("read")));
    const auto side = fromName<TrafficSide>(traffic);
    if (arguments.size() != 1 || (!traffic.isEmpty() && !side) || (json && !stock.isEmpty()))
        return usage(terminal, *find(QStringLiteral("read")));
    manner.trafficSaid = side.has_value();
    manner.traffic = side.value_or(TrafficSide::Left);
    const auto lexicon = lexiconOf(manner.language);
    if (!lexicon)
        return failed(terminal, lexicon.error(), BadUsage);
    const QString& path = arguments.front();
    const auto bytes = readFile(path, maxTranscriptBytes + 1);
    if (!bytes)
        return failed(terminal, bytes.error(), NoInput);
    if (!stock.isEmpty())
        return draftFor(stock, asName, path, *bytes, *lexicon, manner, terminal);
    const auto transcript = parseTranscript(*bytes);
    if (!transcript)
        return failed(terminal, QStringLiteral("%1: %2").arg(path, transcript.error()), BadData);
    warn(path, warningWords(*transcript), terminal);
    const SpokenReading reading = readSpeech(*transcript, *lexicon, trafficOf(manner.traffic));
    HouseRules rules;
    rules.trafficSide = manner.traffic;
    if (json)
        terminal.out << QString::fromUtf8(readingJson(reading));
    else
        terminal.out << readingWords(reading, rules);
    terminal.out.flush();
    return Ok;
}

} // namespace ramplight::cli
