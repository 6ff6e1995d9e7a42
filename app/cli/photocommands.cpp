// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/commandline.h"
#include "domain/retention.h"
#include "evidence/photostore.h"
#include "storage/readtables.h"

#include <QFileInfo>

#include <algorithm>

namespace ramplight::cli {

namespace {

/// A photo that no entry names may be one that somebody is about to sign for, or one whose car was
/// lost with the last hours before a backup was brought back.
constexpr qint64 sparedMs = 30LL * 24 * 60 * 60 * 1000;

/// Photos of one car that may go.
struct Due
{
    CarId car;
    QString words; ///< "RL-2041: 12 photos, out of prep since 2031-03-20"
    std::size_t photos = 0;
};

tl::expected<std::vector<Due>, QString> allDue(SqlLedger& ledger, const HouseRules& rules,
                                               Moment now)
{
    std::vector<Due> all;
    if (rules.photoYears == 0)
        return all;
    const auto cars = goneCarsWithPhotos(ledger.connection(), ledger.siteId());
    if (!cars)
        return tl::unexpected(storeError(cars.error()).words);
    for (const QString& id : *cars) {
        const auto car = ledger.car(CarId{id});
        if (!car)
            return tl::unexpected(car.error().words);
        const std::size_t photos = photosDue(*car, rules, now).size();
        if (photos > 0)
            all.push_back({car->id,
                           QStringLiteral("%1: %2, out of prep since %3")
                               .arg(car->identity.stockNumber, photosWords(photos),
                                    dayOf(outOfPrepAt(*car), rules).toString(Qt::ISODate)),
                           photos});
    }
    return all;
}

/// What lies there and no car keeps: what the retention let go, and what nobody ever named.
tl::expected<std::vector<PhotoId>, QString> nobodys(OpenHouse& house,
                                                    const std::vector<PhotoId>& present)
{
    SqlLedger& ledger = house.store().ledger();
    const auto kept = keptPhotos(ledger.connection(), ledger.siteId());
    if (!kept)
        return tl::unexpected(storeError(kept.error()).words);
    std::vector<PhotoId> photos;
    std::ranges::copy_if(present, std::back_inserter(photos),
                         [&](const PhotoId& photo) { return !kept->contains(photo); });
    return photos;
}

/// In the ledger first: a break afterwards leaves bytes that the next tidying takes, never a photo
/// that is gone without a word.
int removeDue(const std::vector<Due>& due, PersonId by, OpenHouse& house, Terminal& terminal)
{
    for (const Due& one : due) {
        const auto outcome = house.workshop().run(
            CarRequest{freshCommand(), by, one.car, {car::RemovePhotos{}}, false});
        if (!outcome)
            return failed(terminal, QStringLiteral("%1: %2").arg(one.words, words(outcome.error())),
                          Unavailable);
    }
    return Ok;
}

int sweep(const std::vector<PhotoId>& photos, OpenHouse& house, Terminal& terminal)
{
    const Moment spared{terminal.clock.now().ms - sparedMs};
    std::size_t removed = 0;
    for (const PhotoId& photo : photos) {
        const auto gone = house.photos().remove(photo, spared);
        if (!gone)
            return failed(terminal,
                          QStringLiteral("Photo %1 could not be removed: %2")
                              .arg(photo.text, words(gone.error())),
                          Unavailable);
        if (*gone)
            ++removed;
    }
    terminal.out << photosWords(removed) << " removed for good";
    if (removed < photos.size())
        terminal.out << "; " << photosWords(photos.size() - removed)
                     << " that no car needs stay until they are 30 days old";
    terminal.out << "." << Qt::endl;
    if (removed > 0)
        terminal.out << "Backups that were made before keep them until those go themselves."
                     << Qt::endl;
    return Ok;
}

/// What makes the next photo fail, too.
bool isOfThePlace(EvidenceError error)
{
    return error == EvidenceError::NotPermitted || error == EvidenceError::DiskFull ||
           error == EvidenceError::CannotWrite || error == EvidenceError::DatabaseAway;
}

} // namespace

QString photosWords(std::size_t count)
{
    return count == 1 ? QStringLiteral("1 photo") : QStringLiteral("%1 photos").arg(count);
}

int tidy(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const bool act = takeFlag(arguments, QStringLiteral("--do"));
    const QString asName = takeOption(arguments, QStringLiteral("--as"));
    if (!arguments.isEmpty())
        return usage(terminal, *find(QStringLiteral("tidy")));
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    const auto site = house->store().ledger().site();
    if (!site)
        return failed(terminal, site.error().words, Unavailable);
    const auto by = actor(*site, asName, Right::Manage);
    if (act && !by)
        return failed(terminal, by.error(), NoPermission);

    const HouseRules& rules = site->rules;
    terminal.out << "Today is " << dayOf(terminal.clock.now(), rules).toString(Qt::ISODate) << ". ";
    if (rules.photoYears == 0)
        terminal.out << "This house keeps photos for good; the house rules can set years."
                     << Qt::endl;
    else
        terminal.out << "This house keeps photos for " << yearsWords(rules.photoYears)
                     << " after a car was released or left." << Qt::endl;
    const auto due = allDue(house->store().ledger(), rules, terminal.clock.now());
    if (!due)
        return failed(terminal, due.error(), Unavailable);
    std::size_t total = 0;
    for (const Due& one : *due) {
        terminal.out << one.words << Qt::endl;
        total += one.photos;
    }
    terminal.out << photosWords(total) << " of " << due->size()
                 << (due->size() == 1 ? " car" : " cars") << " may go." << Qt::endl;
    if (act)
        if (const int code = removeDue(*due, *by, *house, terminal); code != Ok)
            return code;

    auto present = house->photos().list();
    if (!present && present.error() == EvidenceError::FolderMissing)
        present = std::vector<PhotoId>();
    if (!present)
        return failed(terminal, words(present.error()), Unavailable);
    const auto left = nobodys(*house, *present);
    if (!left)
        return failed(terminal, left.error(), Unavailable);
    if (act)
        return sweep(*left, *house, terminal);
    if (!left->empty())
        terminal.out << photosWords(left->size())
                     << " that no car needs may go, too, once they are 30 days old." << Qt::endl;
    terminal.out << "Nothing was changed. ramplight tidy --do removes them, for good." << Qt::endl;
    return Ok;
}

tl::expected<PhotosTaken, QString> takePhotos(const PhotoKeeper& from, PhotoKeeper& to)
{
    const auto present = from.list();
    if (!present)
        return tl::unexpected(words(present.error()));
    PhotosTaken done;
    for (const PhotoId& id : *present) {
        const auto bytes = from.open(id);
        const auto kept = bytes.and_then([&](const QByteArray& good) { return to.take(id, good); });
        if (bytes && !kept && isOfThePlace(kept.error()))
            return tl::unexpected(words(kept.error()));
        ++(kept && *kept ? done.taken : done.others);
        if (!kept)
            done.faults.append(QStringLiteral("photo %1: %2").arg(id.text, words(kept.error())));
    }
    return done;
}

int photos(const QStringList& arguments, Terminal& terminal)
{
    if (arguments.size() != 2 || arguments.first() != QLatin1String("take"))
        return usage(terminal, *find(QStringLiteral("photos")));
    const PhotoStore from(arguments.at(1));
    if (const auto present = from.list(); !present)
        return failed(terminal,
                      QStringLiteral("%1: %2").arg(arguments.at(1), words(present.error())),
                      NoInput);
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    const auto done = takePhotos(from, house->photos());
    if (!done)
        return failed(terminal, done.error(), NoInput);
    for (const QString& fault : done->faults)
        terminal.err << fault << Qt::endl;
    terminal.out << photosWords(done->taken) << " taken over; " << photosWords(done->others)
                 << " were here before, or cannot be read." << Qt::endl;
    return done->faults.isEmpty() ? Ok : BadData;
}

} // namespace ramplight::cli
