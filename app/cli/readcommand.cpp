// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/reading.h"
#include "cli/commandline.h"

#include <QFile>

namespace ramplight::cli {

namespace {

tl::expected<spoken::Lexicon, QString> lexiconOf(const QString& language)
{
    for (const QChar c : language)
        if (!c.isLetter())
            return tl::unexpected(QStringLiteral("There is no such language: %1.").arg(language));
    QFile file(QStringLiteral(":/ramplight/lexicon/%1.json").arg(language));
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(
            QStringLiteral("There is no lexicon for this language: %1.").arg(language));
    return spoken::Lexicon::read(file.readAll());
}

} // namespace

int read(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const bool json = takeFlag(arguments, QStringLiteral("--json"));
    QString traffic = takeOption(arguments, QStringLiteral("--traffic"));
    QString language = takeOption(arguments, QStringLiteral("--language"));
    if (traffic.isEmpty())
        traffic = QStringLiteral("left");
    if (language.isEmpty())
        language = QStringLiteral("en");
    const bool right = traffic == QLatin1String("right");
    if (arguments.size() != 1 || (!right && traffic != QLatin1String("left")))
        return usage(terminal, *find(QStringLiteral("read")));
    const auto lexicon = lexiconOf(language);
    if (!lexicon)
        return failed(terminal, lexicon.error(), BadUsage);
    const QString& path = arguments.front();
    const auto bytes = readFile(path, maxTranscriptBytes + 1);
    if (!bytes)
        return failed(terminal, bytes.error(), NoInput);
    const auto transcript = parseTranscript(*bytes);
    if (!transcript)
        return failed(terminal, QStringLiteral("%1: %2").arg(path, transcript.error()), BadData);
    for (const TranscriptWarning& warning : transcript->warnings)
        terminal.err << path << ", line " << warning.line << ": " << warning.words << "."
                     << Qt::endl;
    const SpokenReading reading =
        readSpeech(*transcript, *lexicon, right ? Traffic::Right : Traffic::Left);
    if (json)
        terminal.out << QString::fromUtf8(readingJson(reading));
    else
        terminal.out << readingWords(reading);
    terminal.out.flush();
    return Ok;
}

} // namespace ramplight::cli
