// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/whatifoption.h"

#include "domain/words.h"
#include "planning/indexing.h"

#include <QDateTime>
#include <QJsonArray>
#include <QJsonObject>
#include <QTextStream>

#include <algorithm>
#include <array>

namespace ramplight::cli {

namespace {

using namespace planning;
using whatif::Change;
template <class T>
using Read = tl::expected<T, QString>;

constexpr int leastShift = 15; ///< minutes: smaller ones are no news
constexpr int farthestDay = 366;

Read<QDate> dayOf(const QString& text, QDate today)
{
    static constexpr std::array weekdays{"mon", "tue", "wed", "thu", "fri", "sat", "sun"};
    const QString word = text.toLower();
    if (word == QLatin1String("today"))
        return today;
    if (word == QLatin1String("tomorrow"))
        return today.addDays(1);
    for (int day = 1; day <= 7; ++day)
        if (word == QLatin1String(weekdays[at(day - 1)]))
            return today.addDays((day - today.dayOfWeek() + 6) % 7 + 1);
    const QDate date = QDate::fromString(text, Qt::ISODate);
    if (!date.isValid())
        return tl::unexpected(
            QStringLiteral("\"%1\" is no day: today, tomorrow, mon to sun, or one like 2031-05-04")
                .arg(text));
    if (date < today || date > today.addDays(farthestDay))
        return tl::unexpected(QStringLiteral("\"%1\" is over, or more than a year away").arg(text));
    return date;
}

/// "8", "8:30"; -1: it is no time.
int minuteOf(const QString& text)
{
    const QStringList parts = text.split(QLatin1Char(':'));
    bool hours = false;
    bool minutes = true;
    const int hour = parts.value(0).toInt(&hours);
    const int minute = parts.size() == 2 ? parts.value(1).toInt(&minutes) : 0;
    const bool fits = hours && minutes && parts.size() <= 2 && hour >= 0 && minute >= 0 &&
                      minute < 60 && hour * 60 + minute <= 24 * 60;
    return fits ? hour * 60 + minute : -1;
}

Read<PersonId> personOf(const QString& text, const SiteState& site)
{
    std::vector<PersonId> found;
    for (const auto& [id, person] : site.people) {
        if (!person.active)
            continue;
        if (person.name.compare(text, Qt::CaseInsensitive) == 0)
            return id;
        if (person.name.section(QLatin1Char(' '), 0, 0).compare(text, Qt::CaseInsensitive) == 0)
            found.push_back(id);
    }
    if (found.size() == 1)
        return found.front();
    return tl::unexpected(found.empty()
                              ? QStringLiteral("nobody here is called \"%1\"").arg(text)
                              : QStringLiteral("more than one is called \"%1\"").arg(text));
}

Read<const CarState*> carOf(const QString& text, const HouseInput& input)
{
    const auto found = std::ranges::find_if(input.cars, [&text](const CarState& car) {
        return car.identity.stockNumber.compare(text, Qt::CaseInsensitive) == 0;
    });
    if (found == input.cars.end())
        return tl::unexpected(QStringLiteral("no car in prep has stock number \"%1\"").arg(text));
    return &*found;
}

/// What stands behind the kind, and what it is about.
class Reader
{
public:
    Reader(QStringList given, const HouseInput& input, QDate today)
        : m_given(std::move(given))
        , m_input(input)
        , m_today(today)
    {
    }

    [[nodiscard]] bool has(int least, int most) const
    {
        return m_given.size() >= least && m_given.size() <= most;
    }
    [[nodiscard]] QString word(int place) const { return m_given.value(place).trimmed(); }
    [[nodiscard]] Read<QDate> day(int place) const { return dayOf(word(place), m_today); }

    Read<std::vector<Change>> person() const
    {
        const auto like = personOf(word(0), m_input.site);
        if (!like)
            return tl::unexpected(like.error());
        const auto days = span(true);
        if (!days)
            return tl::unexpected(days.error());
        return std::vector<Change>{whatif::AnotherPerson{*like, *days}};
    }

    Read<std::vector<Change>> bay() const
    {
        for (const auto& [id, bay] : m_input.site.bays)
            if (bay.active && bay.kind != BayKind::Parking &&
                QString::number(bay.number) == word(0))
                return std::vector<Change>{whatif::AnotherBay{id}};
        return tl::unexpected(QStringLiteral("there is no bay %1 to work in").arg(word(0)));
    }

    Read<std::vector<Change>> hours() const
    {
        PersonId who;
        if (word(0) != QLatin1String("all")) {
            const auto person = personOf(word(0), m_input.site);
            if (!person)
                return tl::unexpected(person.error());
            who = *person;
        }
        const auto when = day(1);
        if (!when)
            return tl::unexpected(when.error());
        const QStringList times = word(2).split(QLatin1Char('-'));
        const int from = minuteOf(times.value(0));
        const int to = minuteOf(times.value(1));
        if (times.size() != 2 || from < 0 || to <= from)
            return tl::unexpected(
                QStringLiteral("\"%1\" are no hours like 8-13 or 17:00-19:30").arg(word(2)));
        return std::vector<Change>{whatif::ExtraTime{who, {*when, from, to}}};
    }

    Read<std::vector<Change>> away() const
    {
        const auto who = personOf(word(0), m_input.site);
        if (!who)
            return tl::unexpected(who.error());
        const auto days = span(false);
        if (!days)
            return tl::unexpected(days.error());
        return std::vector<Change>{whatif::Absence{*who, *days}};
    }

    Read<std::vector<Change>> part() const
    {
        const auto car = carOf(word(0), m_input);
        if (!car)
            return tl::unexpected(car.error());
        QDate comes;
        if (word(1) != QLatin1String("here")) {
            const auto when = day(1);
            if (!when)
                return tl::unexpected(when.error());
            comes = *when;
        }
        std::vector<Change> changes;
        for (const auto& [id, operation] : (*car)->operations)
            if (operation.state == OperationState::Blocked && (operation.part || operation.outside))
                changes.emplace_back(whatif::PartAt{(*car)->id, id, comes});
        if (changes.empty())
            return tl::unexpected(QStringLiteral("%1 waits for no part and no firm").arg(word(0)));
        return changes;
    }

    Read<std::vector<Change>> promise() const
    {
        const auto car = carOf(word(0), m_input);
        if (!car)
            return tl::unexpected(car.error());
        const auto when = day(1);
        if (!when)
            return tl::unexpected(when.error());
        const auto importance = fromName<PromiseImportance>(word(2));
        if (m_given.size() == 3 && !importance)
            return tl::unexpected(
                QStringLiteral("\"%1\" is none of can-wait, usual, must-be-kept").arg(word(2)));
        return std::vector<Change>{whatif::Promise{(*car)->id, *when, importance}};
    }

private:
    /// From the second word on; openEnded: without a last day it goes on.
    [[nodiscard]] Read<DaysAway> span(bool openEnded) const
    {
        DaysAway days{m_today, {}};
        if (m_given.size() > 1) {
            const auto first = day(1);
            if (!first)
                return tl::unexpected(first.error());
            days.first = *first;
        }
        if (m_given.size() > 2) {
            const auto last = day(2);
            if (!last)
                return tl::unexpected(last.error());
            days.last = *last;
            if (days.last < days.first)
                return tl::unexpected(
                    QStringLiteral("\"%1\" is before \"%2\"").arg(word(2), word(1)));
        } else if (!openEnded) {
            days.last = days.first;
        }
        return days;
    }

    QStringList m_given;
    const HouseInput& m_input;
    QDate m_today;
};

struct Kind
{
    const char* name;
    const char* form;
    int least;
    int most;
    Read<std::vector<Change>> (Reader::*read)() const;
};

constexpr std::array kinds{
    Kind{"person", "person:LIKE[,FIRST[,LAST]]", 1, 3, &Reader::person},
    Kind{"bay", "bay:NUMBER", 1, 1, &Reader::bay},
    Kind{"hours", "hours:NAME|all,DAY,FROM-TO", 3, 3, &Reader::hours},
    Kind{"away", "away:NAME,FIRST[,LAST]", 2, 3, &Reader::away},
    Kind{"part", "part:STOCKNO,DAY|here", 2, 2, &Reader::part},
    Kind{"promise", "promise:STOCKNO,DAY[,can-wait|usual|must-be-kept]", 2, 3, &Reader::promise},
};

QString timeWords(const PlanClock& clock, PlanMinute minute)
{
    return minute == never ? QStringLiteral("never") : clock.words(minute);
}

QString lateWords(const CarShift& shift)
{
    return shift.wasLate && shift.isLate ? QStringLiteral("late either way")
           : shift.wasLate               ? QStringLiteral("late before, in time after")
           : shift.isLate                ? QStringLiteral("in time before, late after")
                                         : QStringLiteral("in time either way");
}

QJsonValue iso(const HousePlan& plan, PlanMinute minute)
{
    if (minute == never)
        return QJsonValue::Null;
    const QDateTime local =
        QDateTime::fromMSecsSinceEpoch(plan.clock().momentOf(minute).ms, zoneOf(plan.rules));
    return local.toOffsetFromUtc(local.offsetFromUtc()).toString(Qt::ISODate);
}

} // namespace

QString whatIfForms()
{
    QStringList forms;
    for (const Kind& kind : kinds)
        forms.append(QString::fromLatin1(kind.form));
    return forms.join(QStringLiteral(", "));
}

tl::expected<std::vector<Change>, QString> readWhatIf(const QString& text, const HouseInput& input,
                                                      QDate today)
{
    const qsizetype colon = text.indexOf(QLatin1Char(':'));
    const QString name = text.left(colon).trimmed();
    const Reader reader(text.mid(colon + 1).split(QLatin1Char(',')), input, today);
    for (const Kind& kind : kinds) {
        if (colon < 0 || name != QLatin1String(kind.name))
            continue;
        if (!reader.has(kind.least, kind.most) || reader.word(0).isEmpty())
            return tl::unexpected(QStringLiteral("--what-if %1: it is written %2.")
                                      .arg(text, QString::fromLatin1(kind.form)));
        auto read = (reader.*kind.read)();
        if (!read)
            return tl::unexpected(QStringLiteral("--what-if %1: %2.").arg(text, read.error()));
        return *read;
    }
    return tl::unexpected(
        QStringLiteral("--what-if %1: it is one of %2.").arg(text, whatIfForms()));
}

QString whatIfText(const HousePlan& before, const HousePlan& after, const QStringList& changes)
{
    const whatif::Outcome outcome = whatif::outcomeOf(before, after, leastShift);
    const PlanClock clock = before.clock();
    QString text;
    QTextStream out(&text);
    out << "What if\n";
    for (const QString& change : changes)
        out << "  " << change << "\n";
    out << "Late for their promise: " << outcome.lateBefore << " before, " << outcome.lateAfter
        << " after\n";
    const auto tell = [&](const char* head, const std::vector<CarShift>& shifts) {
        if (!shifts.empty())
            out << head << "\n";
        for (const CarShift& shift : shifts) {
            const ShopCar& car = after.house.shop.cars[at(after.numberOf(shift.car))];
            out << "  " << car.name << "  ready " << timeWords(clock, shift.before) << " before, "
                << timeWords(clock, shift.after) << " after; nine times in ten by "
                << timeWords(clock, shift.before90) << " before, "
                << timeWords(clock, shift.after90) << " after";
            if (car.promised != never)
                out << "; promised " << clock.words(car.promised) << ", " << lateWords(shift);
            out << "\n";
        }
    };
    tell("Sooner", outcome.sooner);
    tell("Later", outcome.later);
    tell("Ready as before", outcome.otherwise);
    if (outcome.sooner.empty() && outcome.later.empty() && outcome.otherwise.empty())
        out << "No car is ready at another time\n";
    else
        out << "As before: " << outcome.asBefore << (outcome.asBefore == 1 ? " car\n" : " cars\n");
    out << "Nothing was changed\n";
    out.flush();
    return text;
}

QJsonObject whatIfJson(const HousePlan& before, const HousePlan& after, const QStringList& changes)
{
    const whatif::Outcome outcome = whatif::outcomeOf(before, after, leastShift);
    QJsonArray cars;
    const auto side = [&](PlanMinute ready50, PlanMinute ready90, bool late) {
        return QJsonObject{
            {"ready50", iso(before, ready50)}, {"ready90", iso(before, ready90)}, {"late", late}};
    };
    for (const auto* shifts : {&outcome.sooner, &outcome.later, &outcome.otherwise})
        for (const CarShift& shift : *shifts) {
            const ShopCar& car = after.house.shop.cars[at(after.numberOf(shift.car))];
            cars.append(QJsonObject{{"car", car.name},
                                    {"promised", iso(before, car.promised)},
                                    {"before", side(shift.before, shift.before90, shift.wasLate)},
                                    {"after", side(shift.after, shift.after90, shift.isLate)}});
        }
    return {{"at", iso(before, 0)},
            {"whatIf", QJsonArray::fromStringList(changes)},
            {"schedules", QJsonObject{{"before", qint64{before.plan.schedules}},
                                      {"after", qint64{after.plan.schedules}}}},
            {"late", QJsonObject{{"before", outcome.lateBefore}, {"after", outcome.lateAfter}}},
            {"cars", cars},
            {"asBefore", outcome.asBefore}};
}

} // namespace ramplight::cli
