// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/baysmodel.h"

#include "kiosk/carwords.h"
#include "kiosk/kioskenums.h"
#include "kiosk/wallrow.h"

#include <algorithm>

namespace ramplight {

namespace {

constexpr std::array columns{
    Column<BayRow>{"bayId", cell<&BayRow::bayId>},
    Column<BayRow>{"number", cell<&BayRow::number>},
    Column<BayRow>{"name", cell<&BayRow::name>},
    Column<BayRow>{"kindWords", cell<&BayRow::kindWords>},
    Column<BayRow>{"free", cell<&BayRow::free>},
    Column<BayRow>{"active", cell<&BayRow::active>},
    Column<BayRow>{"carId", cell<&BayRow::carId>},
    Column<BayRow>{"stockNumber", cell<&BayRow::stockNumber>},
    Column<BayRow>{"who", cell<&BayRow::who>},
    Column<BayRow>{"whoShort", cell<&BayRow::whoShort>},
    Column<BayRow>{"stateWords", cell<&BayRow::stateWords>},
    Column<BayRow>{"forgotten", cell<&BayRow::forgotten>},
    Column<BayRow>{"progress", cell<&BayRow::progress>},
    Column<BayRow>{"showProgress", cell<&BayRow::showProgress>},
    Column<BayRow>{"restraintWords", cell<&BayRow::restraintWords>},
    Column<BayRow>{"band", cell<&BayRow::band>},
};

QString firstOf(const QString& name)
{
    return name.section(QLatin1Char(' '), 0, 0);
}

/// Who is on any car, each once.
std::vector<PersonId> whoIsOnCars(const std::vector<CarCard>& cards)
{
    std::vector<PersonId> all;
    for (const CarCard& card : cards)
        for (const PersonId person : whoWorksOn(card))
            if (std::ranges::find(all, person) == all.end())
                all.push_back(person);
    return all;
}

/// By their first names; whole where somebody else on a car has the same one.
QString shortNamesOf(const std::vector<PersonId>& people, const std::vector<PersonId>& onCars,
                     const SiteBook& book)
{
    QStringList names;
    for (const PersonId person : people) {
        const QString name = book.nameOf(person);
        const QString first = firstOf(name);
        const bool shared = std::ranges::any_of(onCars, [&](PersonId other) {
            return other != person &&
                   firstOf(book.nameOf(other)).compare(first, Qt::CaseInsensitive) == 0;
        });
        names.append(shared ? name : first);
    }
    return names.join(QStringLiteral(", "));
}

void fill(BayRow& row, const CarCard& card, const std::vector<PersonId>& onCars,
          const SiteBook& book, Moment now)
{
    const WallRow wall = wallRow(card, book, now, {});
    row.free = false;
    row.carId = card.car.text;
    row.stockNumber = card.identity.stockNumber;
    row.restraintWords = words(card.restraintsAt(now));
    row.band = wall.band;
    row.stateWords = wall.footWho;
    row.who = namesOf(whoWorksOn(card), book);
    row.whoShort = shortNamesOf(whoWorksOn(card), onCars, book);
    const CardLine* running = inHandOn(card, book.rules(), now);
    if (running == nullptr)
        return;
    const int minutes = minutesOn(*running, now);
    row.forgotten = wall.forgotten;
    // Beside a stock number there is room for the shortest question.
    row.stateWords =
        row.forgotten
            ? BaysModel::tr("since %1?").arg(book.times().shortly(running->runningSince, now))
            : wall.footWhat;
    row.showProgress = running->usual.usual > 0;
    if (row.showProgress)
        row.progress = static_cast<double>(minutes) / running->usual.usual;
}

} // namespace

BaysModel::BaysModel(CardFeed& feed, SiteBook& book, Ticker& ticker, bool withClosed,
                     QObject* parent)
    : ListBase(std::make_unique<RowTable<BayRow>>(columns), parent)
    , m_feed(feed)
    , m_book(book)
    , m_ticker(ticker)
    , m_withClosed(withClosed)
{
    connect(&feed, &CardFeed::changed, this, &BaysModel::rebuild);
    connect(&book, &SiteBook::changed, this, &BaysModel::rebuild);
    connect(&ticker, &Ticker::minute, this, &BaysModel::rebuild);
    rebuild();
}

void BaysModel::rebuild()
{
    const std::vector<PersonId> onCars = whoIsOnCars(m_feed.cards());
    std::vector<BayRow> rows;
    for (const auto& [id, bay] : m_book.site().bays) {
        if (!bay.active && !m_withClosed)
            continue;
        BayRow row;
        row.bayId = id.value;
        row.number = bay.number;
        row.name = bay.name;
        row.kindWords = words(bay.kind);
        row.active = bay.active;
        row.stateWords = bay.active ? tr("free") : tr("closed");
        row.band = Wall::NoBand;
        const auto card = std::ranges::find(m_feed.cards(), id, &CarCard::bay);
        if (card != m_feed.cards().end())
            fill(row, *card, onCars, m_book, m_ticker.now());
        rows.push_back(row);
    }
    std::ranges::stable_sort(rows, {}, &BayRow::number);
    replace(std::move(rows));
}

} // namespace ramplight
