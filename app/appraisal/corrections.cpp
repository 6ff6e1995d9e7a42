// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/corrections.h"

#include <QJsonDocument>

namespace ramplight {

namespace {

/// "wing-left dent dent-repair"
QString told(const FindingData& data)
{
    QStringList work;
    for (const Remedy remedy : data.remedies)
        work.append(nameOf(remedy));
    return QStringLiteral("%1 %2 %3")
        .arg(data.place.text, nameOf(data.condition), work.join(QLatin1Char('+')))
        .trimmed();
}

} // namespace

QByteArray correctionLine(const Correction& correction)
{
    return QJsonDocument(toJson(correction)).toJson(QJsonDocument::Compact) + '\n';
}

std::vector<Correction> readCorrections(const QByteArray& file)
{
    std::vector<Correction> all;
    for (const QByteArray& line : file.split('\n')) {
        const QJsonDocument json = QJsonDocument::fromJson(line);
        Correction correction;
        if (json.isObject() && fromJson(json.object(), correction).isEmpty() &&
            !correction.words.isEmpty())
            all.push_back(std::move(correction));
    }
    return all;
}

std::vector<Correction> standingCorrections(const std::vector<Correction>& all)
{
    std::vector<Correction> standing;
    for (const Correction& correction : all) {
        std::erase_if(standing, [&](const Correction& before) {
            return before.name == correction.name && before.words == correction.words &&
                   before.drafted == correction.drafted;
        });
        if (correction.corrected != correction.drafted)
            standing.push_back(correction);
    }
    return standing;
}

QString correctionTest(const Correction& correction)
{
    QString words = correction.words.simplified();
    // The line's own signs.
    words.replace(QStringLiteral("=>"), QStringLiteral("= >"));
    const QString right =
        correction.traffic == TrafficSide::Right ? QStringLiteral("[right] ") : QString();
    return QStringLiteral("# %1, %2; drafted: %3\n%4%5 => %6\n")
        .arg(correction.name, correction.language, told(correction.drafted), right, words,
             correction.corrected ? told(*correction.corrected) : QString());
}

} // namespace ramplight
