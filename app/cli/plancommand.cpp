// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/commandline.h"

#include "domain/housecatalogue.h"
#include "planning/houseplan.h"
#include "planning/indexing.h"

#include <QDateTime>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include <chrono>

namespace ramplight::cli {

namespace {

using namespace planning;

constexpr std::chrono::milliseconds searchTime{1000};

tl::expected<HouseInput, QString> inputOf(Store& store, const Catalogue& carried)
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
    for (const auto* cards : {&*open, &*released}) {
        for (const CarCard& card : *cards) {
            auto car = store.ledger().car(card.car);
            if (!car)
                return tl::unexpected(car.error().words);
            const std::vector<WorkRecord> records = recordsOf(*car);
            input.records.insert(input.records.end(), records.begin(), records.end());
            if (cards == &*open)
                input.cars.push_back(std::move(*car));
        }
    }
    return input;
}

/// A plan and how it is told.
class Teller
{
public:
    explicit Teller(const HousePlan& plan)
        : m_plan(plan)
        , m_shop(plan.house.shop)
        , m_clock(plan.clock())
        , m_zone(zoneOf(plan.rules))
    {
        for (std::size_t car = 0; car < m_shop.cars.size(); ++car)
            m_cars.push_back(static_cast<int>(car));
        std::stable_sort(m_cars.begin(), m_cars.end(), [this](int a, int b) {
            return m_plan.forecasts[at(a)].ready50 < m_plan.forecasts[at(b)].ready50;
        });
    }

    void tell(QTextStream& out) const
    {
        out << "Bays\n";
        for (std::size_t bay = 0; bay < m_shop.bays.size(); ++bay)
            tellJobs(out, m_shop.bays[bay].name, m_plan.jobsOfBay(static_cast<int>(bay)), true);
        out << "People\n";
        for (std::size_t p = 0; p < m_shop.people.size(); ++p)
            tellJobs(out, m_shop.people[p].name, m_plan.jobsOfPerson(static_cast<int>(p)), false);
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
        if (forecast.ready50 == never)
            out << ", never ready";
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
    const Shop& m_shop;
    PlanClock m_clock;
    QTimeZone m_zone;
    std::vector<int> m_cars;
};

} // namespace

int plan(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const bool json = takeFlag(arguments, QStringLiteral("--json"));
    const QString schedules = takeOption(arguments, QStringLiteral("--schedules"));
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
    const auto input = inputOf(house->store(), house->catalogue());
    if (!input)
        return failed(terminal, input.error(), Unavailable);
    const HousePlan made = planHouse(*input, terminal.clock.now(), effort);
    if (!made.faults.isEmpty())
        return failed(terminal, made.faults.join(QLatin1Char('\n')), BadData);
    const Teller teller(made);
    if (json)
        terminal.out << QString::fromUtf8(teller.json()) << Qt::flush;
    else
        teller.tell(terminal.out);
    return Ok;
}

} // namespace ramplight::cli
