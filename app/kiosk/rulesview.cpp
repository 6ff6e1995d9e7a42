// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/rulesview.h"

#include "domain/retention.h"
#include "kiosk/enumchoices.h"
#include "kiosk/limitrows.h"
#include "kiosk/typednumber.h"

#include <algorithm>
#include <set>

namespace ramplight {

namespace {

constexpr int minutesOfDay = 24 * 60;

/// Work on the car: what a manager may be allowed to leave at all.
std::vector<ChoiceRow> skillsOnTheCar()
{
    std::vector<ChoiceRow> rows;
    for (const auto& [skill, name] : Names<Skill>::table)
        if (skill != Skill::Checks && skill != Skill::Office)
            rows.push_back({QString::fromLatin1(name), sentence(words(skill)), {}, false});
    return rows;
}

/// For good, the usual ones, and what the house has.
std::vector<ChoiceRow> yearChoices(int own)
{
    std::set<int> years{3, 6, 10, 15};
    if (own > 0)
        years.insert(own);
    std::vector<ChoiceRow> rows{{QStringLiteral("0"), RulesView::tr("For good"), {}, false}};
    for (const int some : years)
        rows.push_back({QString::number(some), sentence(yearsWords(some)), {}, false});
    return rows;
}

QString currencyOf(const QString& country)
{
    return country == QLatin1String("US")   ? QStringLiteral("USD")
           : country == QLatin1String("GB") ? QStringLiteral("GBP")
                                            : QStringLiteral("EUR");
}

} // namespace

RulesView::RulesView(Desk& desk, Session& session, SiteBook& book, QObject* parent)
    : QObject(parent)
    , m_book(book)
    , m_asks(desk, session, book, m_ask)
    , m_countries(false)
    , m_sides(false)
    , m_traffic(false)
    , m_currencies(false)
    , m_locks(false)
    , m_mayBeLeft(true)
    , m_photos(true)
    , m_photoYears(false)
{
    m_sides.offer({{nameOf(SideWords::NearOff), tr("Near side, off side"), {}, false},
                   {nameOf(SideWords::LeftRight), tr("Left, right"), {}, false}});
    m_traffic.offer({{nameOf(TrafficSide::Left), tr("On the left"), {}, false},
                     {nameOf(TrafficSide::Right), tr("On the right"), {}, false}});
    std::vector<ChoiceRow> currencies;
    for (const char* code : {"GBP", "EUR", "USD"})
        currencies.push_back({QString::fromLatin1(code), QString::fromLatin1(code), {}, false});
    m_currencies.offer(std::move(currencies));
    m_locks.offer({{QStringLiteral("30"), tr("30 s"), {}, false},
                   {QStringLiteral("60"), tr("1 min"), {}, false},
                   {QStringLiteral("120"), tr("2 min"), {}, false},
                   {QStringLiteral("300"), tr("5 min"), {}, false},
                   {QStringLiteral("600"), tr("10 min"), {}, false}});
    m_mayBeLeft.offer(skillsOnTheCar());
    m_photos.offer(rowsOf<PhotoMoment>());
    for (Choices* choices :
         {&m_sides, &m_traffic, &m_currencies, &m_locks, &m_mayBeLeft, &m_photos, &m_photoYears})
        connect(choices, &Choices::chosenChanged, this, &RulesView::formChanged);
    connect(&m_countries, &Choices::chosenChanged, this, &RulesView::followCountry);
    connect(&book, &SiteBook::changed, this, [this] {
        if (!m_ask.busy())
            return;
        begin(); // what was just saved is what the house has
    });
}

QString RulesView::shiftEnd() const
{
    return QStringLiteral("%1:%2")
        .arg(m_rules.shiftEndMinute / 60)
        .arg(m_rules.shiftEndMinute % 60, 2, 10, QLatin1Char('0'));
}

void RulesView::setFinalCheckByWorker(bool allowed)
{
    m_rules.finalCheckByWorker = allowed;
    emit formChanged();
}

void RulesView::begin()
{
    m_filling = true;
    m_rules = m_book.rules();
    std::vector<ChoiceRow> countries;
    for (const Country& country : m_book.base().countries)
        countries.push_back({country.id, country.title, {}, false});
    m_countries.offer(std::move(countries));
    m_countries.setChosen({m_rules.country});
    m_sides.setChosen({nameOf(m_rules.sideWords)});
    m_traffic.setChosen({nameOf(m_rules.trafficSide)});
    m_currencies.setChosen({m_rules.currency});
    m_locks.setChosen({QString::number(m_rules.lockSeconds)});
    QStringList leave;
    for (const ChoiceRow& row : m_mayBeLeft.rows())
        if (std::ranges::none_of(m_rules.neverLeft,
                                 [&](Skill skill) { return nameOf(skill) == row.choiceId; }))
            leave.append(row.choiceId);
    m_mayBeLeft.setChosen(leave);
    m_photos.setChosen(idsOf(m_rules.askPhotos));
    m_photoYears.offer(yearChoices(m_rules.photoYears));
    m_photoYears.setChosen({QString::number(m_rules.photoYears)});
    m_filling = false;
    rebuild();
}

/// The country's own ways are taken along; each can be changed afterwards.
void RulesView::followCountry()
{
    if (m_filling)
        return;
    const auto& all = m_book.base().countries;
    const auto country = std::ranges::find(all, m_countries.current(), &Country::id);
    if (country == all.end())
        return;
    m_sides.setChosen({nameOf(country->sideWords)});
    m_traffic.setChosen({nameOf(country->trafficSide)});
    m_currencies.setChosen({currencyOf(country->id)});
    rebuild();
}

HouseRules RulesView::formRules() const
{
    HouseRules rules = m_rules;
    if (!m_countries.current().isEmpty())
        rules.country = m_countries.current();
    rules.sideWords = fromName<SideWords>(m_sides.current()).value_or(rules.sideWords);
    rules.trafficSide = fromName<TrafficSide>(m_traffic.current()).value_or(rules.trafficSide);
    if (!m_currencies.current().isEmpty())
        rules.currency = m_currencies.current();
    if (!m_locks.current().isEmpty())
        rules.lockSeconds = m_locks.current().toInt();
    if (!m_photoYears.current().isEmpty())
        rules.photoYears = m_photoYears.current().toInt();
    std::vector<Skill> never;
    for (const ChoiceRow& row : m_mayBeLeft.rows())
        if (const auto skill = fromName<Skill>(row.choiceId); skill && !row.chosen)
            never.push_back(*skill);
    // In another order it is the same rule.
    if (!std::ranges::is_permutation(never, rules.neverLeft))
        rules.neverLeft = never;
    const std::vector<PhotoMoment> asked = chosenOf<PhotoMoment>(m_photos);
    if (!std::ranges::is_permutation(asked, rules.askPhotos))
        rules.askPhotos = asked;
    return rules;
}

void RulesView::rebuild()
{
    const HouseRules rules = formRules();
    const Catalogue& base = m_book.base();
    std::vector<LimitRow> rows;
    for (const NamedLimit& shipped : base.houseLimits) {
        const NamedLimit now = namedLimit(base, rules, shipped.name).value_or(shipped);
        LimitRow row = limitRow(now, true);
        row.changed = now != shipped;
        rows.push_back(row);
    }
    const auto country = std::ranges::find(base.countries, rules.country, &Country::id);
    if (country != base.countries.end())
        for (const NamedLimit& limit : country->limits)
            rows.push_back(limitRow(limit, false));
    m_limits.setRows(std::move(rows));
    emit formChanged();
}

void RulesView::setLimit(const QString& rowId, const QString& text)
{
    const auto& shipped = m_book.base().houseLimits;
    const auto limit = std::ranges::find(shipped, rowId, &NamedLimit::name);
    if (limit == shipped.end())
        return;
    std::vector<HouseLimit> own = m_rules.limits;
    std::erase_if(own, [&](const HouseLimit& one) { return one.name == rowId; });
    if (!text.trimmed().isEmpty()) {
        const auto value = typedNumber(text, limit->decimals);
        if (!value) {
            m_ask.refuse(QStringLiteral("setLimit"), QStringLiteral("value-out-of-range"),
                         QStringLiteral("%1: %2").arg(limit->title, value.error()));
            return;
        }
        if (*value != (limit->min ? *limit->min : limit->max.value_or(0)))
            own.push_back({rowId, *value});
    }
    std::ranges::sort(own, {}, &HouseLimit::name);
    m_rules.limits = own;
    rebuild();
}

void RulesView::moveShiftEnd(int minutes)
{
    m_rules.shiftEndMinute = std::clamp(m_rules.shiftEndMinute + minutes, 0, minutesOfDay - 1);
    emit formChanged();
}

void RulesView::save()
{
    m_asks.send(QStringLiteral("saveRules"), tr("to change the house rules"),
                site::SetHouseRules{formRules()});
}

} // namespace ramplight
