// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/demomaker.h"

#include "access/secret.h"
#include "demo/democrew.h"
#include "demo/demopictures.h"

#include <QFile>

namespace ramplight {

namespace {

constexpr unsigned demoSeed = 417;

} // namespace

QString demoPin()
{
    return QStringLiteral("271828");
}

tl::expected<void, QString> makeDemo(Store& store, const Catalogue& catalogue, PhotoVault& photos,
                                     const PinHasher& hasher, Moment now,
                                     const std::function<void(double)>& progress,
                                     const TellingLedger::Told& told)
{
    const auto site = store.ledger().site();
    if (!site)
        return tl::unexpected(site.error().words);
    if (site->isSetUp())
        return tl::unexpected(
            QStringLiteral("There is a workshop here already: %1. The demo workshop "
                           "wants an empty folder.")
                .arg(site->name));
    QFile file(QStringLiteral(":/ramplight/demo/workshop.json"));
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(QStringLiteral("The demo workshop is not in this program."));
    const auto workshop = demo::readWorkshop(file.readAll());
    if (!workshop)
        return tl::unexpected(workshop.error());
    TellingLedger ledger(store.ledger(), told);
    demo::Crew crew(ledger, catalogue, *workshop, demo::picturesInto(photos), demoSeed);
    if (auto played = crew.play(now, progress); !played)
        return played;
    for (int person = 1; person <= int(workshop->people.size()); ++person) {
        const auto hash = hasher.hash(PersonId{person}, Secret(demoPin().toUtf8()));
        if (!hash)
            return tl::unexpected(words(hash.error()));
        if (const auto set = store.credentials().setPinHash(PersonId{person}, *hash); !set)
            return tl::unexpected(words(set.error()));
    }
    return {};
}

} // namespace ramplight
