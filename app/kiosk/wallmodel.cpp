// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/wallmodel.h"

#include "kiosk/carwords.h"
#include "kiosk/kioskenums.h"
#include "planning/indexing.h"

#include <QLocale>

#include <algorithm>

namespace ramplight {

namespace {

constexpr std::array wallColumns{
    Column<WallRow>{"carId", cell<&WallRow::carId>},
    Column<WallRow>{"stockNumber", cell<&WallRow::stockNumber>},
    Column<WallRow>{"registration", cell<&WallRow::registration>},
    Column<WallRow>{"makeModel", cell<&WallRow::makeModel>},
    Column<WallRow>{"shape", cell<&WallRow::shape>},
    Column<WallRow>{"shapeColour", cell<&WallRow::shapeColour>},
    Column<WallRow>{"marks", cell<&WallRow::marks>},
    Column<WallRow>{"band", cell<&WallRow::band>},
    Column<WallRow>{"statusWord", cell<&WallRow::statusWord>},
    Column<WallRow>{"lineTitles", cell<&WallRow::lineTitles>},
    Column<WallRow>{"lineSigns", cell<&WallRow::lineSigns>},
    Column<WallRow>{"lineBands", cell<&WallRow::lineBands>},
    Column<WallRow>{"lineWords", cell<&WallRow::lineWords>},
    Column<WallRow>{"moreCount", cell<&WallRow::moreCount>},
    Column<WallRow>{"footWho", cell<&WallRow::footWho>},
    Column<WallRow>{"footWhat", cell<&WallRow::footWhat>},
    Column<WallRow>{"forgotten", cell<&WallRow::forgotten>},
    Column<WallRow>{"pastDue", cell<&WallRow::pastDue>},
    Column<WallRow>{"promisedWord", cell<&WallRow::promisedWord>},
    Column<WallRow>{"late", cell<&WallRow::late>},
    Column<WallRow>{"forecastWord", cell<&WallRow::forecastWord>},
    Column<WallRow>{"forecastLead", cell<&WallRow::forecastLead>},
    Column<WallRow>{"forecastNote", cell<&WallRow::forecastNote>},
    Column<WallRow>{"willBeLate", cell<&WallRow::willBeLate>},
    Column<WallRow>{"placeWord", cell<&WallRow::placeWord>},
    Column<WallRow>{"restraintWords", cell<&WallRow::restraintWords>},
    Column<WallRow>{"restraintShort", cell<&WallRow::restraintShort>},
    Column<WallRow>{"safetyCount", cell<&WallRow::safetyCount>},
    Column<WallRow>{"releasable", cell<&WallRow::releasable>},
};

constexpr std::array wallSkillColumns{
    Column<SkillRow>{"skill", cell<&SkillRow::skill>},
    Column<SkillRow>{"title", cell<&SkillRow::title>},
    Column<SkillRow>{"cars", cell<&SkillRow::cars>},
};

constexpr std::array wallPeopleColumns{
    Column<WallPersonRow>{"personId", cell<&WallPersonRow::personId>},
    Column<WallPersonRow>{"name", cell<&WallPersonRow::name>},
    Column<WallPersonRow>{"cars", cell<&WallPersonRow::cars>},
    Column<WallPersonRow>{"carsWords", cell<&WallPersonRow::carsWords>},
};

bool hasWorkOf(const CarCard& card, PersonId person)
{
    return std::ranges::any_of(card.outstanding,
                               [person](const CardLine& line) { return isOfPerson(line, person); });
}

/// Held first, then what runs, what waits for a second person, what waits, what cannot go on, and
/// what is done.
int rank(int band)
{
    constexpr std::array order{Wall::Held,    Wall::InHand,  Wall::AwaitingCheck, Wall::Paused,
                               Wall::Waiting, Wall::Blocked, Wall::Ready};
    return static_cast<int>(std::ranges::find(order, band) - order.begin());
}

} // namespace

SkillCounts::SkillCounts(QObject* parent)
    : ListBase(std::make_unique<RowTable<SkillRow>>(wallSkillColumns), parent)
{
}

void SkillCounts::setRows(std::vector<SkillRow> rows)
{
    replace(std::move(rows));
}

WallPeople::WallPeople(QObject* parent)
    : ListBase(std::make_unique<RowTable<WallPersonRow>>(wallPeopleColumns), parent)
{
}

void WallPeople::setRows(std::vector<WallPersonRow> rows)
{
    replace(std::move(rows));
}

WallModel::WallModel(CardFeed& feed, SiteBook& book, Ticker& ticker, PlanService& plans,
                     QObject* parent)
    : ListBase(std::make_unique<RowTable<WallRow>>(wallColumns), parent)
    , m_feed(feed)
    , m_book(book)
    , m_ticker(ticker)
    , m_plans(plans)
{
    connect(&plans, &PlanService::changed, this, &WallModel::rebuild);
    connect(&feed, &CardFeed::changed, this, &WallModel::rebuild);
    connect(&book, &SiteBook::changed, this, &WallModel::rebuild);
    connect(&ticker, &Ticker::minute, this, &WallModel::rebuild);
    rebuild();
}

void WallModel::setSkill(const QString& skill)
{
    if (m_skill == skill)
        return;
    m_skill = skill;
    rebuild();
    emit filterChanged();
}

void WallModel::setPerson(int person)
{
    if (m_person.value == person)
        return;
    m_person = PersonId{person};
    rebuild();
    emit filterChanged();
}

void WallModel::setText(const QString& text)
{
    if (m_text == text)
        return;
    m_text = text;
    rebuild();
    emit filterChanged();
}

void WallModel::setLineLimit(int limit)
{
    if (m_lineLimit == limit)
        return;
    m_lineLimit = limit;
    rebuild();
    emit filterChanged();
}

void WallModel::clearFilter()
{
    m_skill.clear();
    m_person = {};
    m_text.clear();
    rebuild();
    emit filterChanged();
}

QString WallModel::filterWords() const
{
    QStringList parts;
    if (const auto skill = fromName<Skill>(m_skill))
        parts.append(sentence(words(*skill)));
    parts.append(m_book.nameOf(m_person));
    parts.append(m_text.trimmed());
    const QString by = dotted(parts);
    return by.isEmpty() ? QString() : dotted({by, QString::number(rowCount())});
}

WallModel::Forecast WallModel::forecastOf(const CarCard& card) const
{
    const Moment now = m_ticker.now();
    const TimeWords& times = m_book.times();
    Forecast forecast{.late = isLate(card.promised, now, m_book)};
    const PlanService::Plan& plan = m_plans.plan();
    if (const int car = plan ? plan->numberOf(card.car) : -1; car >= 0) {
        const planning::PlanMinute ready = plan->forecasts[planning::at(car)].ready50;
        // "ready" alone is what waits for its release.
        if (card.statusAt(now) == CarStatus::ReadyForRelease) {
            forecast.words = tr("now");
            forecast.lead = forecast.late ? tr("late, ready") : tr("ready");
        } else if (!card.outstanding.empty()) {
            forecast.late = forecast.late || plan->isLate(car);
            const Moment at = plan->clock().momentOf(ready);
            forecast.words = ready == planning::never
                                 ? tr("no end yet")
                                 : QStringLiteral("%1 %2").arg(
                                       times.shortDay(times.dateOf(at), now), times.clock(at));
            if (ready != planning::never)
                forecast.lead = forecast.late ? tr("late: will be ready") : tr("will be ready");
        }
    }
    if (forecast.late && forecast.lead.isEmpty())
        forecast.lead = tr("late");
    if (card.promised.isValid())
        forecast.note = tr("promised %1").arg(times.shortDay(card.promised, now));
    return forecast;
}

std::vector<WallPersonRow> WallModel::peopleRows() const
{
    std::vector<WallPersonRow> rows;
    for (const auto& [id, person] : m_book.site().people) {
        WallPersonRow row{id.value, m_book.nameOf(id), 0, {}};
        row.cars = static_cast<int>(std::ranges::count_if(
            m_feed.cards(), [who = id](const CarCard& card) { return hasWorkOf(card, who); }));
        // Who has left may still have something handed to them.
        if (row.cars == 0 && !person.can(Right::Work) && !person.can(Right::Check))
            continue;
        row.carsWords = row.cars == 0   ? tr("nothing")
                        : row.cars == 1 ? tr("one car")
                                        : tr("%1 cars").arg(row.cars);
        rows.push_back(row);
    }
    std::ranges::stable_sort(rows, [](const WallPersonRow& a, const WallPersonRow& b) {
        return a.name.localeAwareCompare(b.name) < 0;
    });
    return rows;
}

void WallModel::rebuild()
{
    const Moment now = m_ticker.now();
    const QString said = filterWords();
    const std::optional<Skill> skill = fromName<Skill>(m_skill);
    struct Entry
    {
        WallRow row;
        QDate promised;
    };
    std::vector<Entry> entries;
    std::array<int, Names<Skill>::table.size()> perSkill{};
    m_inPrep = m_held = m_ready = m_late = 0;
    for (const CarCard& card : m_feed.cards()) {
        const CarStatus status = card.statusAt(now);
        ++m_inPrep;
        m_held += bandOf(card, now) == Wall::Held ? 1 : 0;
        m_ready += status == CarStatus::ReadyForRelease ? 1 : 0;
        const Forecast forecast = forecastOf(card);
        m_late += forecast.late ? 1 : 0;
        for (std::size_t i = 0; i < perSkill.size(); ++i)
            perSkill[i] += std::ranges::any_of(card.outstanding, [&](const CardLine& line) {
                return waitsFor(line, Names<Skill>::table[i].first);
            });
        const auto goesOn = [&](const CardLine& line) { return waitsFor(line, *skill); };
        if (skill && std::ranges::none_of(card.outstanding, goesOn))
            continue;
        if (!m_person.isNull() && !hasWorkOf(card, m_person))
            continue;
        if (!answersTo(card.identity, m_text))
            continue;
        entries.push_back({wallRow(card, m_book, now, {skill, m_lineLimit}),
                           card.promised.isValid() ? card.promised : QDate(9999, 1, 1)});
        WallRow& row = entries.back().row;
        row.forecastWord = forecast.words;
        row.forecastLead = forecast.lead;
        row.forecastNote = forecast.note;
        row.willBeLate = forecast.late && !row.late;
    }
    std::ranges::stable_sort(entries, [](const Entry& a, const Entry& b) {
        if (a.promised != b.promised)
            return a.promised < b.promised;
        if (rank(a.row.band) != rank(b.row.band))
            return rank(a.row.band) < rank(b.row.band);
        return naturallyLess(a.row.stockNumber, b.row.stockNumber);
    });
    std::vector<WallRow> rows;
    rows.reserve(entries.size());
    for (Entry& entry : entries)
        rows.push_back(std::move(entry.row));
    replace(std::move(rows));

    std::vector<SkillRow> skills;
    for (std::size_t i = 0; i < perSkill.size(); ++i) {
        const auto& [value, name] = Names<Skill>::table[i];
        if (value != Skill::Office || perSkill[i] > 0)
            skills.push_back({QString::fromLatin1(name), sentence(words(value)), perSkill[i]});
    }
    m_skills.setRows(std::move(skills));
    m_people.setRows(peopleRows());
    emit countsChanged();
    // They count the cards, and so change with them.
    if (filterWords() != said)
        emit filterChanged();
}

} // namespace ramplight
