// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/history.h"

#include "cli/house.h"
#include "cli/shipped.h"
#include "demo/democrew.h"

#include <QDateTime>
#include <QElapsedTimer>
#include <QFile>
#include <QTimeZone>
#include <QUuid>

namespace ramplight::test {

namespace {

constexpr int carsPerAppend = 50;
constexpr int peopleOfACar = 100; ///< more than the demo workshop has

std::unique_ptr<Store> storeIn(const QTemporaryDir& folder)
{
    StoreSettings settings;
    settings.file = folder.filePath(QStringLiteral("workshop.sqlite"));
    auto store = Store::open(settings, {});
    if (!store)
        qFatal("%s", qPrintable(store.error().words));
    return std::move(*store);
}

bool hasRunningWork(const CarState& car)
{
    return std::ranges::any_of(car.operations,
                               [](const auto& entry) { return entry.second.isRunning(); });
}

/// As far as another car can have lived it at the same time: one that stands in a bay or has
/// somebody working on it takes the place of others.
Story longestFree(const CarId& id, const std::vector<CarEnvelope>& history)
{
    CarState car;
    car.id = id;
    Story story;
    Story free;
    for (const CarEnvelope& envelope : history) {
        apply(car, envelope);
        story.push_back(envelope.event);
        if (car.bay.isNull() && !hasRunningWork(car) && !car.released && !car.left)
            free = story;
    }
    return free;
}

CarAppend asCar(const Story& story, const Append& append, int number)
{
    CarAppend part;
    part.car = CarId{QUuid::createUuid().toString(QUuid::WithoutBraces)};
    part.events = story;
    auto& arrived = std::get<CarArrived>(part.events.front());
    arrived.identity.stockNumber = QStringLiteral("H-%1").arg(number);
    arrived.identity.registration = QStringLiteral("QX %1 K").arg(number);
    // Nobody works on two cars at once, and these live the same days: each has people of its own.
    for (CarEvent& event : part.events)
        if (auto* started = std::get_if<WorkStarted>(&event))
            started->person.value += peopleOfACar * number;
    part.after.id = part.car;
    for (const CarEvent& event : part.events)
        apply(part.after, {part.after.seq + 1, append.at, append.by, append.command, event});
    return part;
}

} // namespace

Stories demoStories()
{
    const auto catalogue = shippedCatalogue();
    QFile file(QStringLiteral(":/ramplight/demo/workshop.json"));
    const auto workshop = file.open(QIODevice::ReadOnly)
                              ? demo::readWorkshop(file.readAll())
                              : tl::unexpected(QStringLiteral("no demo workshop"));
    if (!catalogue || !workshop)
        qFatal("the demo workshop is not in this program");
    QTemporaryDir folder;
    const auto store = storeIn(folder);
    const auto picture = [](const demo::CarEntry&, const PlaceId&, PhotoMoment moment, int number) {
        const int which = number * 8 + static_cast<int>(moment);
        return PhotoId{QStringLiteral("%1").arg(which, 64, 16, QLatin1Char('0'))};
    };
    demo::Crew crew(store->ledger(), *catalogue, *workshop, picture, 417);
    const QDateTime end({2031, 5, 8}, {13, 40}, QTimeZone("Europe/London"));
    if (const auto played = crew.play({end.toMSecsSinceEpoch()}, [](double) {}); !played)
        qFatal("%s", qPrintable(played.error()));
    Stories stories;
    for (const demo::CarEntry& entry : workshop->cars) {
        const auto id = store->ledger().carByStockNumber(entry.stock);
        // Cars that are gone are not found by their number.
        const CarId car =
            id && *id ? **id : CarId{QStringLiteral("demo-%1").arg(entry.stock.toLower())};
        const auto state = store->ledger().car(car);
        const auto history = store->ledger().history(car);
        if (!state || !history || !state->exists() || state->left)
            continue;
        if (state->released) {
            Story story;
            for (const CarEnvelope& envelope : *history)
                story.push_back(envelope.event);
            stories.released.push_back(std::move(story));
        } else if (Story story = longestFree(car, *history); !story.empty()) {
            stories.open.push_back(std::move(story));
        }
    }
    // The shorter ones: years of them have to be written before anything is measured.
    for (auto* kind : {&stories.released, &stories.open}) {
        std::ranges::sort(*kind, {}, &Story::size);
        kind->resize((kind->size() + 1) / 2);
    }
    return stories;
}

History::History(int cars, int open, const Stories& stories)
{
    QElapsedTimer timer;
    timer.start();
    const auto store = storeIn(m_folder);
    const int every = cars / open;
    for (int first = 0; first < cars; first += carsPerAppend) {
        Append append;
        append.command = CommandId{QStringLiteral("history-%1").arg(first)};
        append.by = PersonId{1};
        append.at = Moment{1'936'000'000'000 + first * qint64{60'000}};
        for (int number = first; number < std::min(cars, first + carsPerAppend); ++number) {
            const bool isOpen = number % every == 0;
            const auto& from = isOpen ? stories.open : stories.released;
            const auto at = static_cast<std::size_t>(isOpen ? number / every : number);
            append.cars.push_back(asCar(from[at % from.size()], append, number));
            m_entries += std::ssize(append.cars.back().events);
        }
        if (const auto kept = store->ledger().append(append); !kept)
            qFatal("%s", qPrintable(kept.error().words));
    }
    m_seconds = double(timer.elapsed()) / 1000;
}

std::unique_ptr<Store> History::open() const
{
    return storeIn(m_folder);
}

} // namespace ramplight::test
