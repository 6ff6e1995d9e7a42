// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/shipped.h"

#include <QFile>
#include <QThread>

#include <algorithm>
#include <utility>

namespace ramplight {

namespace {

QString lexiconPath(const QString& language)
{
    return QStringLiteral(":/ramplight/lexicon/%1.json").arg(language);
}

} // namespace

tl::expected<Catalogue, QString> shippedCatalogue()
{
    QFile file(QStringLiteral(":/ramplight/catalogue/operations.json"));
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(QStringLiteral("The catalogue is not in this program."));
    CatalogueReading reading = readCatalogue(file.readAll());
    if (!reading.faults.isEmpty())
        return tl::unexpected(reading.faults.join(QLatin1Char('\n')));
    return std::move(reading.catalogue);
}

std::future<tl::expected<Catalogue, QString>> shippedCatalogueAside()
{
    // Qt takes the thread that first has to do with it for the main one: before its application is
    // made that must not be the other.
    (void)QThread::currentThread();
    return std::async(std::launch::async, shippedCatalogue);
}

tl::expected<KnownCatalogues, QString> knownCatalogues()
{
    static const tl::expected<Catalogue, QString> shipped = shippedCatalogue();
    if (!shipped)
        return tl::unexpected(shipped.error());
    QFile file(QStringLiteral(":/ramplight/catalogue/least.json"));
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(QStringLiteral("The least that operations ask for is not in this "
                                             "program."));
    auto least = readLeast(file.readAll());
    if (!least)
        return tl::unexpected(least.error());
    return KnownCatalogues(*shipped, std::move(*least));
}

QByteArray appraisalSchema()
{
    QFile file(QStringLiteral(":/ramplight/schema/appraisal.schema.json"));
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

bool hasLexicon(const QString& language)
{
    return std::ranges::all_of(language, [](QChar c) { return c.isLetter(); }) &&
           QFile::exists(lexiconPath(language));
}

QByteArray shippedLexicon(const QString& language)
{
    QFile file(lexiconPath(language));
    return hasLexicon(language) && file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

} // namespace ramplight
