// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/commandline.h"
#include "cli/whatifoption.h"

#include "domain/carcard.h"
#include "domain/housecatalogue.h"
#include "planning/houseplan.h"
#include "planning/indexing.h"
#include "planning/lookback.h"

#include <QDateTime>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QLocale>

#include <algorithm>
#include <chrono>

namespace ramplight::cli {

namespace {

using namespace planning;

constexpr std::chrono::milliseconds searchTime{1000};

tl::expected<HouseInput, QString> inputOf(Store& store, const Catalogue& carried, Moment now)
{
    HouseInput input;
    const auto site = store.ledger().site();
    const auto open = store.wall().wall();
    const auto released = store.wall().recentlyReleased(learnedCars);
    for (const StoreError* error : {site ? nullptr : &site.error(), open ? nullptr : &open.error(),
                                    released ? nullptr : &released.error()}) {
        if (error != nullptr)
            return tl::unexpected(error->words);
    }
    input.site = *site;
    input.calendar = calendarOf(*site);
    input.catalogue = std::make_shared<const Catalogue>(houseCatalogue(carried, *site));
    std::vector<CarId> all;
    for (const auto* cards : {&*open, &*released}) {
        for (const CarCard& card : *cards) {
            all.push_back(card.car);
            auto car = store.ledger().car(card.car);
            if (!car)
                return tl::unexpected(car.error().words);
            const std::vector<WorkRecord> records = recordsOf(*car);
            input.records.insert(input.records.end(), records.begin(), records.end());
            if (cards == &*open)
                input.cars.push_back(std::move(*car));
        }
    }
    const auto ledger = houseLedger(store.ledger(), all);
    if (!ledger)
        return tl::unexpected(ledger.error().words);
    input.hindsight = lookBack(*ledger, input.catalogue, now);
    return input;
}

/// A plan and how it is told.
class Teller
{
public:
    Teller(const HousePlan& plan, const HouseInput& input)
        : m_plan(plan)
        , m_input(input)
        , m_shop(plan.house.shop)
        , m_clock(plan.clock())
        , m_zone(zoneOf(plan.rules))
    {
        for (std::size_t car = 0; car < m_shop.cars.size(); ++car)
            m_cars.push_back(static_cast<int>(car));
        std::stable_sort(m_cars.begin(), m_cars.end(), [this](int a, int b) {
            return m_plan.forecasts[at(a)].ready50 < m_plan.forecasts[at(b)].ready50;
        });
        for (const CarId& id : plan.house.cars)
            m_cards.push_back(
                cardOf(*std::ranges::find(input.cars, id, &CarState::id), plan.rules));
        for (std::size_t job = 0; job < m_shop.jobs.size(); ++job) {
            if (!plan.plan.jobs[job].isPlanned())
                m_unplanned.push_back(static_cast<int>(job));
        }
    }

    void tell(QTextStream& out) const
    {
        out << "Bays\n";
        for (std::size_t bay = 0; bay < m_shop.bays.size(); ++bay)
            tellJobs(out, m_shop.bays[bay].name, m_plan.jobsOfBay(static_cast<int>(bay)), true);
        out << "People\n";
        for (std::size_t p = 0; p < m_shop.people.size(); ++p)
            tellJobs(out, m_shop.people[p].name, m_plan.jobsOfPerson(static_cast<int>(p)), false);
        tellFree(out);
        tellBlocked(out);
        tellUnplanned(out);
        out << "Cars\n";
        for (const int car : m_cars)
            tellCar(out, car);
        out.flush();
    }

    [[nodiscard]] QByteArray json() const
    {
        QJsonArray bays;
        for (std::size_t bay = 0; bay < m_shop.bays.size(); ++bay)
            bays.append(QJsonObject{{"name", m_shop.bays[bay].name},
                                    {"work", jobs(m_plan.jobsOfBay(static_cast<int>(bay)))}});
        QJsonArray people;
        for (std::size_t p = 0; p < m_shop.people.size(); ++p)
            people.append(QJsonObject{{"name", m_shop.people[p].name},
                                      {"work", jobs(m_plan.jobsOfPerson(static_cast<int>(p)))}});
        QJsonArray cars;
        for (const int car : m_cars) {
            const CarForecast& forecast = m_plan.forecasts[at(car)];
            QJsonObject told{{"car", m_shop.cars[at(car)].name},
                             {"promised", iso(m_shop.cars[at(car)].promised)},
                             {"planned", iso(m_plan.plan.ready[at(car)])},
                             {"ready50", iso(forecast.ready50)},
                             {"ready90", iso(forecast.ready90)},
                             {"within50", span(forecast.within50)},
                             {"within80", span(forecast.within80)},
                             {"within90", span(forecast.within90)},
                             {"wantsSignature", wantsSignature(car)},
                             {"late", m_plan.isLate(car)},
                             {"chanceOfLate", forecast.late}};
            if (m_plan.isLate(car))
                told.insert("why", QJsonArray::fromStringList(m_plan.whyWords(car)));
            cars.append(told);
        }
        return QJsonDocument(QJsonObject{{"at", iso(0)},
                                         {"schedules", qint64{m_plan.plan.schedules}},
                                         {"bays", bays},
                                         {"people", people},
                                         {"free", free()},
                                         {"blocked", blocked()},
                                         {"unplanned", unplanned()},
                                         {"cars", cars}})
            .toJson();
    }

private:
    void tellJobs(QTextStream& out, const QString& who, const std::vector<int>& jobs,
                  bool ofBay) const
    {
        out << "  " << who << (jobs.empty() ? "  nothing\n" : "\n");
        for (const int job : jobs) {
            const Placement& placed = m_plan.plan.jobs[at(job)];
            const ShopJob& one = m_shop.jobs[at(job)];
            out << "    " << m_clock.words(placed.start) << " to " << endOf(placed) << "  "
                << m_shop.cars[at(one.car)].name << "  " << one.title;
            if (ofBay && placed.person >= 0)
                out << ", " << m_shop.people[at(placed.person)].name;
            if (!ofBay && placed.bay >= 0)
                out << ", " << m_shop.bays[at(placed.bay)].name;
            if (!pinned(job).isEmpty())
                out << ", by the manager's word";
            out << (one.running              ? ", in hand\n"
                    : m_plan.isForeseen(job) ? ", not open yet\n"
                                             : "\n");
        }
    }

    /// The time alone on the day on which it began.
    [[nodiscard]] QString endOf(const Placement& placed) const
    {
        const QString words = m_clock.words(placed.end);
        return m_clock.dayOf(placed.start) == m_clock.dayOf(placed.end)
                   ? words.section(QLatin1Char(' '), -1)
                   : words;
    }

    void tellCar(QTextStream& out, int car) const
    {
        const CarForecast& forecast = m_plan.forecasts[at(car)];
        const PlanMinute promised = m_shop.cars[at(car)].promised;
        out << "  " << m_shop.cars[at(car)].name
            << (promised == never ? QStringLiteral("  nothing promised")
                                  : QStringLiteral("  promised ") + m_clock.words(promised));
        if (wantsSignature(car))
            out << ", ready now, wants a signature";
        else if (forecast.ready50 == never)
            out << ", cannot be finished as it stands";
        else
            out << ", ready " << m_clock.words(forecast.ready50) << ", nine times in ten by "
                << (forecast.ready90 == never ? QStringLiteral("never")
                                              : m_clock.words(forecast.ready90));
        out << (m_plan.isLate(car) ? ", late\n" : "\n");
        if (m_plan.isLate(car)) {
            for (const QString& why : m_plan.whyWords(car))
                out << "    " << why << "\n";
        }
    }

    void tellFree(QTextStream& out) const
    {
        out << "Free\n";
        for (const int person : freePeople()) {
            out << "  " << m_shop.people[at(person)].name;
            const int next = nextOf(person);
            if (next >= 0)
                out << ", next " << m_clock.words(m_plan.plan.jobs[at(next)].start) << "  "
                    << carName(next) << "  " << m_shop.jobs[at(next)].title;
            out << "\n";
        }
    }

    void tellBlocked(QTextStream& out) const
    {
        out << "Blocked\n";
        forEachBlocked([&out](const CarCard& card, const CardLine& line) {
            out << "  " << card.identity.stockNumber << "  " << line.title << ", " << line.waitsFor;
            if (line.due.isValid())
                out << ", due " << QLocale().toString(line.due, QStringLiteral("d MMM"));
            out << "\n";
        });
    }

    void tellUnplanned(QTextStream& out) const
    {
        if (m_unplanned.empty())
            return;
        out << "Not planned\n";
        for (const int job : m_unplanned)
            out << "  " << carName(job) << "  " << m_shop.jobs[at(job)].title << ": "
                << m_plan.waitWords(job) << "\n";
    }

    [[nodiscard]] const QString& carName(int job) const
    {
        return m_shop.cars[at(m_shop.jobs[at(job)].car)].name;
    }

    [[nodiscard]] bool wantsSignature(int car) const
    {
        return m_cards[at(car)].statusAt(m_plan.start) == CarStatus::ReadyForRelease;
    }

    /// At work now, with nothing in hand.
    [[nodiscard]] std::vector<int> freePeople() const
    {
        std::vector<int> all;
        for (int person = 0; person < static_cast<int>(m_shop.people.size()); ++person) {
            const Person* one = m_input.site.person(m_plan.house.people[at(person)]);
            const bool works = one != nullptr &&
                               (one->can(Right::Work) || one->can(Right::Check)) &&
                               m_shop.people[at(person)].times.minutesIn({0, 1}) > 0;
            const bool busy = std::ranges::any_of(m_shop.jobs, [person](const ShopJob& job) {
                return job.running && job.running->person == person;
            });
            if (works && !busy)
                all.push_back(person);
        }
        return all;
    }

    /// What somebody is to do first; -1: nothing is planned.
    [[nodiscard]] int nextOf(int person) const
    {
        const std::vector<int> jobs = m_plan.jobsOfPerson(person);
        return jobs.empty() ? -1 : jobs.front();
    }

    template <class Tell>
    void forEachBlocked(const Tell& tell) const
    {
        for (const int car : m_cars) {
            for (const CardLine& line : m_cards[at(car)].outstanding) {
                if (line.state == OperationState::Blocked)
                    tell(m_cards[at(car)], line);
            }
        }
    }

    /// What a manager said of a job that is not in hand: for whom, where, not before.
    [[nodiscard]] QJsonObject pinned(int job) const
    {
        const CarState& car = *std::ranges::find(m_input.cars, m_plan.carOf(job), &CarState::id);
        const Operation* operation = car.operation(m_plan.house.jobs[at(job)]);
        QJsonObject told;
        if (operation == nullptr || operation->isRunning())
            return told;
        if (const Person* person = m_input.site.person(operation->assigned))
            told.insert("person", person->name);
        if (const Bay* bay = m_input.site.bay(operation->plannedBay))
            told.insert("bay", bay->number);
        if (operation->plannedFrom > m_plan.start)
            told.insert("notBefore", iso(m_clock.minuteOf(operation->plannedFrom)));
        return told;
    }

    [[nodiscard]] QJsonArray free() const
    {
        QJsonArray all;
        for (const int person : freePeople()) {
            QJsonObject told{{"name", m_shop.people[at(person)].name}};
            if (const int next = nextOf(person); next >= 0)
                told.insert("next", jobs({next}).first());
            all.append(told);
        }
        return all;
    }

    [[nodiscard]] QJsonArray blocked() const
    {
        QJsonArray all;
        forEachBlocked([&all](const CarCard& card, const CardLine& line) {
            QJsonObject told{{"car", card.identity.stockNumber},
                             {"operation", line.operation.value},
                             {"title", line.title},
                             {"why", line.waitsFor}};
            told.insert("due", line.due.isValid() ? QJsonValue(line.due.toString(Qt::ISODate))
                                                  : QJsonValue(QJsonValue::Null));
            all.append(told);
        });
        return all;
    }

    [[nodiscard]] QJsonArray unplanned() const
    {
        QJsonArray all;
        for (const int job : m_unplanned)
            all.append(QJsonObject{{"car", carName(job)},
                                   {"operation", m_plan.isForeseen(job)
                                                     ? QJsonValue(QJsonValue::Null)
                                                     : m_plan.house.jobs[at(job)].value},
                                   {"title", m_shop.jobs[at(job)].title},
                                   {"why", m_plan.waitWords(job)}});
        return all;
    }

    [[nodiscard]] QJsonObject span(const Interval& interval) const
    {
        return {{"from", iso(interval.from)}, {"to", iso(interval.to)}};
    }

    [[nodiscard]] QJsonArray jobs(const std::vector<int>& numbers) const
    {
        QJsonArray all;
        for (const int job : numbers) {
            const Placement& placed = m_plan.plan.jobs[at(job)];
            const ShopJob& one = m_shop.jobs[at(job)];
            QJsonObject told{{"car", m_shop.cars[at(one.car)].name},
                             {"title", one.title},
                             {"from", iso(placed.start)},
                             {"to", iso(placed.end)},
                             {"inHand", one.running.has_value()}};
            if (m_plan.isForeseen(job))
                told.insert("notOpenYet", true);
            else
                told.insert("operation", m_plan.house.jobs[at(job)].value);
            if (placed.person >= 0)
                told.insert("person", m_shop.people[at(placed.person)].name);
            if (placed.bay >= 0)
                told.insert("bay", m_shop.bays[at(placed.bay)].name);
            if (!one.running)
                told.insert("why", m_plan.waitWords(job));
            if (const QJsonObject word = pinned(job); !word.isEmpty())
                told.insert("pinned", word);
            all.append(told);
        }
        return all;
    }

    /// With the house's offset from UTC; null for never.
    [[nodiscard]] QJsonValue iso(PlanMinute minute) const
    {
        if (minute == never)
            return QJsonValue::Null;
        const QDateTime local = QDateTime::fromMSecsSinceEpoch(m_clock.momentOf(minute).ms, m_zone);
        return local.toOffsetFromUtc(local.offsetFromUtc()).toString(Qt::ISODate);
    }

    const HousePlan& m_plan;
    const HouseInput& m_input;
    const Shop& m_shop;
    PlanClock m_clock;
    QTimeZone m_zone;
    std::vector<int> m_cars;      ///< the first to be ready first
    std::vector<CarCard> m_cards; ///< by car
    std::vector<int> m_unplanned;
};

/// The plan against the one with these changes in it. Nothing is written.
int tellWhatIf(const QStringList& given, const HouseInput& input, const HousePlan& before,
               const PlanEffort& effort, bool json, Terminal& terminal)
{
    const PlanClock clock = before.clock();
    std::vector<whatif::Change> changes;
    QStringList said;
    for (const QString& text : given) {
        const auto read = readWhatIf(text, input, clock.dayOf(0));
        if (!read)
            return failed(terminal, read.error(), BadUsage);
        for (const whatif::Change& change : *read) {
            said.append(whatif::words(change, input, [](QDate day) {
                return QLocale().toString(day, QStringLiteral("ddd d MMM"));
            }));
            changes.push_back(change);
        }
    }
    PlanEffort alike = effort;
    alike.search = asThoroughAs(before);
    const HousePlan after = planHouse(whatif::changed(input, changes), before.start, alike);
    if (!after.faults.isEmpty())
        return failed(terminal, after.faults.join(QLatin1Char('\n')), BadData);
    if (json)
        terminal.out << QString::fromUtf8(QJsonDocument(whatIfJson(before, after, said)).toJson())
                     << Qt::flush;
    else
        terminal.out << whatIfText(before, after, said) << Qt::flush;
    return Ok;
}

} // namespace

int plan(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const bool json = takeFlag(arguments, QStringLiteral("--json"));
    const QString schedules = takeOption(arguments, QStringLiteral("--schedules"));
    QStringList changes;
    while (arguments.indexOf(QStringLiteral("--what-if")) >= 0 &&
           arguments.last() != QLatin1String("--what-if"))
        changes.append(takeOption(arguments, QStringLiteral("--what-if")));
    const Command& self = *find(QStringLiteral("plan"));
    PlanEffort effort;
    if (schedules.isEmpty()) {
        const auto end = std::chrono::steady_clock::now() + searchTime;
        effort.search.stop = [end] { return std::chrono::steady_clock::now() >= end; };
    } else {
        bool number = false;
        effort.search.schedules = schedules.toLongLong(&number);
        if (!number || effort.search.schedules < 1)
            return usage(terminal, self);
    }
    if (!arguments.isEmpty())
        return usage(terminal, self);
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    const auto input = inputOf(house->store(), house->catalogue(), terminal.clock.now());
    if (!input)
        return failed(terminal, input.error(), Unavailable);
    const HousePlan made = planHouse(*input, terminal.clock.now(), effort);
    if (!made.faults.isEmpty())
        return failed(terminal, made.faults.join(QLatin1Char('\n')), BadData);
    if (!changes.isEmpty())
        return tellWhatIf(changes, *input, made, effort, json, terminal);
    const Teller teller(made, *input);
    if (json)
        terminal.out << QString::fromUtf8(teller.json()) << Qt::flush;
    else
        teller.tell(terminal.out);
    return Ok;
}

} // namespace ramplight::cli
