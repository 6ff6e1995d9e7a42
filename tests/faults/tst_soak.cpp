// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../screens/benchcrew.h"
#include "../screens/benchhouse.h"
#include "cli/steadymemory.h"
#include "demo/demopictures.h"
#include "kiosk/drawing/picture.h"
#include "tour/hands.h"

#include <QDateTime>
#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QQuickWindow>
#include <QTest>

#include <algorithm>
#include <dlfcn.h>
#include <malloc.h>
#include <unistd.h>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr int carsInHouse = 12;
constexpr double mostGrowth = 1.05;
/// After so many rounds the two caches are full, and the whole program holds no more.
constexpr bool cachesFill = WARM_ROUNDS >= 30;
/// Threads of pools that end when they have nothing to do, and what each has open: a few rounds do
/// not see them all.
constexpr int comeAndGo = cachesFill ? 0 : 4;
/// Two connections, each 16 MB of pages and what goes with them.
constexpr double mostPages = 2 * 20;
constexpr int dryingMinutes = 20;
constexpr int mostSteps = 200;

/// What the program holds of the machine. Two caches fill for longer than the rest and have their
/// bounds: the pages of the workshop's file and the painted pictures.
struct Held
{
    double megabytes = 0; ///< resident, once what was given back is given back to the system
    double pages = 0;     ///< of them, what SQLite holds
    double pictures = 0;  ///< of them, painted pictures
    int descriptors = 0;
    int threads = 0;

    [[nodiscard]] double beside() const { return megabytes - pages - pictures; }
    [[nodiscard]] QString words() const
    {
        return QStringLiteral("%1 MB, %2 beside pages (%3) and pictures (%4); %5 descriptors, %6 "
                              "threads")
            .arg(megabytes, 0, 'f', 1)
            .arg(beside(), 0, 'f', 1)
            .arg(pages, 0, 'f', 1)
            .arg(pictures, 0, 'f', 1)
            .arg(descriptors)
            .arg(threads);
    }
};

/// What SQLite holds altogether: asked of the library that Qt's driver brought along.
double sqliteMegabytes()
{
    static void* const library = ::dlopen("libsqlite3.so.0", RTLD_LAZY | RTLD_NOLOAD);
    using Used = long long (*)();
    static const Used used =
        library == nullptr
            ? nullptr
            : reinterpret_cast<Used>(::dlsym(library, "sqlite3_memory_used")); // NOLINT
    return used == nullptr ? 0 : static_cast<double>(used()) / (1024 * 1024);
}

int entriesOf(const char* folder)
{
    return static_cast<int>(QDir(QString::fromLatin1(folder))
                                .entryList(QDir::AllEntries | QDir::NoDotAndDotDot | QDir::System)
                                .size());
}

Held heldNow()
{
    ::malloc_trim(0);
    QFile statm(QStringLiteral("/proc/self/statm"));
    const double pages =
        statm.open(QIODevice::ReadOnly) ? statm.readAll().split(' ').value(1).toDouble() : 0;
    statm.close();
    constexpr double mega = 1024 * 1024;
    return {pages * static_cast<double>(::sysconf(_SC_PAGESIZE)) / mega, sqliteMegabytes(),
            static_cast<double>(Picture::kilobytesKept()) / 1024, entriesOf("/proc/self/fd"),
            entriesOf("/proc/self/task")};
}

/// Of the last three rounds, as far as they are not among the first few, the one that holds least:
/// what is reckoned aside comes and goes, threads and files with it.
template <class Thing>
Held leastOfLast(const std::vector<Held>& rounds, std::ptrdiff_t first, Thing thing)
{
    constexpr std::ptrdiff_t last = 3;
    return *std::ranges::min_element(rounds.begin() + std::max(first, std::ssize(rounds) - last),
                                     rounds.end(), {}, thing);
}

/// Of each thing the most.
Held mostOf(const std::vector<Held>& rounds)
{
    Held most;
    for (const Held& held : rounds) {
        most.pages = std::max(most.pages, held.pages);
        most.pictures = std::max(most.pictures, held.pictures);
        most.descriptors = std::max(most.descriptors, held.descriptors);
        most.threads = std::max(most.threads, held.threads);
    }
    return most;
}

/// How long frames take, from what they show being taken over to their being drawn.
class Frames
{
public:
    explicit Frames(QQuickWindow* window)
    {
        QObject::connect(
            window, &QQuickWindow::beforeSynchronizing, window, [this] { m_timer.start(); },
            Qt::DirectConnection);
        QObject::connect(
            window, &QQuickWindow::afterRendering, window,
            [this] {
                if (m_timer.isValid())
                    m_took.push_back(static_cast<double>(m_timer.nsecsElapsed()) / 1e6);
                m_timer.invalidate();
            },
            Qt::DirectConnection);
    }

    /// Of the frames since the last call.
    QString told()
    {
        std::ranges::sort(m_took);
        const auto at = [this](double share) {
            return m_took.empty() ? 0.0
                                  : m_took[static_cast<std::size_t>(
                                        share * static_cast<double>(m_took.size() - 1))];
        };
        const QString words = QStringLiteral("%1 frames, p50 %2, p95 %3, p99 %4 ms")
                                  .arg(m_took.size())
                                  .arg(at(0.5), 0, 'f', 1)
                                  .arg(at(0.95), 0, 'f', 1)
                                  .arg(at(0.99), 0, 'f', 1);
        m_took.clear();
        return words;
    }

private:
    QElapsedTimer m_timer;
    std::vector<double> m_took;
};

} // namespace

// A busy workshop through the real screens, by touch, over the real store, for as long as
// RAMPLIGHT_SOAK_SECONDS says: one car after the other is worked off at the wall and released,
// while others are worked off elsewhere, come in and leave. What the program holds stays what it
// was once it was warm.
class TestSoak : public QObject
{
    Q_OBJECT

public:
    static void initMain()
    {
        qputenv("QTEST_FUNCTION_TIMEOUT", "20000000");
        keepMemorySteady(); // as the program does
    }

private slots:
    void busyWorkshop_holdsNoMoreThanAtFirst()
    {
        bool given = false;
        qint64 seconds = qEnvironmentVariable("RAMPLIGHT_SOAK_SECONDS").toLongLong(&given);
        if (!given)
            seconds = SOAK_SECONDS;

        BenchHouse house(BenchHouse::Start::House);
        Shop shop(house);
        QElapsedTimer timer;
        timer.start();
        // Pools start in the first rounds, and fonts and shapes are seen for the first time.
        std::vector<Held> warm;
        while (shop.rounds() < WARM_ROUNDS || timer.elapsed() < seconds * 1000 / 2) {
            QVERIFY2(shop.round(), qPrintable(shop.fault()));
            warm.push_back(heldNow());
            qInfo("warming: round %d: %s", shop.rounds(), qPrintable(warm.back().words()));
        }
        const QString framesBefore = shop.frames().told();
        std::vector<Held> later;
        qint64 lastTold = timer.elapsed();
        while (shop.rounds() < 2 * WARM_ROUNDS || timer.elapsed() < seconds * 1000) {
            QVERIFY2(shop.round(), qPrintable(shop.fault()));
            later.push_back(heldNow());
            if (timer.elapsed() - lastTold > tellEveryMs) {
                qInfo("%lld s, round %d: %s; %s", static_cast<long long>(timer.elapsed() / 1000),
                      shop.rounds(), qPrintable(later.back().words()),
                      qPrintable(shop.frames().told()));
                lastTold = timer.elapsed();
            }
        }
        qInfo("%lld s, %.1f hours of the workshop: %s",
              static_cast<long long>(timer.elapsed() / 1000), shop.hours(),
              qPrintable(shop.done()));
        const Held before = leastOfLast(warm, WARM_ROUNDS - 1, &Held::beside);
        const Held after = leastOfLast(later, 0, &Held::beside);
        qInfo("held once it was warm: %s; %s", qPrintable(before.words()),
              qPrintable(framesBefore));
        qInfo("held at the end: %s; %s", qPrintable(after.words()),
              qPrintable(shop.frames().told()));
        QVERIFY2(after.beside() <= before.beside() * mostGrowth,
                 "it holds more memory than it did once it was warm");
        QVERIFY2(!cachesFill || after.megabytes <= before.megabytes * mostGrowth,
                 "it holds more memory, with its caches, than it did once they were full");
        const Held most = mostOf(later);
        QVERIFY2(most.pages > 0 && most.pages <= mostPages, "SQLite holds more than its pages");
        QVERIFY2(most.pictures <= double(Picture::mostKilobytesKept) / 1024,
                 "more pictures are kept than may be");
        QVERIFY2(leastOfLast(later, 0, &Held::descriptors).descriptors <=
                     mostOf(warm).descriptors + comeAndGo,
                 "it holds more files than at first");
        QVERIFY2(leastOfLast(later, 0, &Held::threads).threads <= mostOf(warm).threads + comeAndGo,
                 "more threads run than at first");
    }

private:
    static constexpr qint64 tellEveryMs = 60'000;

    /// The workshop, its kiosk and who works there.
    class Shop
    {
    public:
        explicit Shop(BenchHouse& house)
            : m_house(house)
            , m_crew(house)
            , m_start(house.clock.now())
            , m_app(options(),
                    {house.desk(), house.clock, house.catalogue, house.photos(), house.demoMaker()})
        {
            if (!m_app.show() || !QTest::qWaitForWindowExposed(m_app.window()))
                qFatal("%s", qPrintable(m_app.faults().join(QLatin1Char('\n'))));
            m_visitor = std::make_unique<Visitor>(m_app.window());
            m_hands = std::make_unique<Hands>(
                m_app, *m_visitor, [this](int minutes) { m_house.clock.goOn(minutes); },
                [this] { return photograph(); }, BenchHouse::pin());
            m_frames = std::make_unique<Frames>(m_app.window());
            // The sheet opens by itself behind the last reading, and lists what is there by then.
            if (!photograph())
                qFatal("the drop folder cannot be written to");
            while (static_cast<int>(m_cars.size()) < carsInHouse)
                comesIn();
        }

        /// A car at the wall, a car elsewhere, a look at the plan. In the short run the wall then
        /// hangs there untouched for as long: other tests run beside it.
        bool round()
        {
            ++m_rounds;
            QElapsedTimer took;
            took.start();
            if (!wallRound() || !elsewhere() || !look() || !m_hands->signOut() ||
                !m_hands->home() || !planned())
                return false;
            if (!cachesFill)
                QTest::qWait(static_cast<int>(took.elapsed()));
            return true;
        }

        [[nodiscard]] QString fault() const { return m_visitor->fault(); }
        [[nodiscard]] int rounds() const { return m_rounds; }
        [[nodiscard]] Frames& frames() { return *m_frames; }
        [[nodiscard]] double hours() const
        {
            return static_cast<double>(m_house.clock.now().ms - m_start.ms) / 3'600'000;
        }
        [[nodiscard]] QString done() const
        {
            return QStringLiteral("%1 rounds, %2 operations and %3 releases by touch, %4 cars done "
                                  "elsewhere")
                .arg(m_rounds)
                .arg(m_operations)
                .arg(m_released)
                .arg(m_elsewhere);
        }

    private:
        static KioskOptions options()
        {
            KioskOptions options;
            options.windowed = true;
            options.screen.lessMotion = true;
            options.planning.schedules = 200;
            return options;
        }

        void comesIn()
        {
            static const std::vector<std::vector<FindingData>> finds{
                {finding("wheel-rear-right", Condition::Kerbed, {Remedy::Refurbish})},
                {finding("front-door-left", Condition::Dent, {Remedy::DentRepair})},
                {finding("bonnet", Condition::Chip, {Remedy::TouchIn})},
                {},
            };
            const QString stock = QStringLiteral("S-%1").arg(++m_came);
            m_house.bringIn(stock, finds[static_cast<std::size_t>(m_came) % finds.size()]);
            m_cars.append(stock);
        }

        /// What is begun shortly before everything pauses would be gone on with another day.
        void keepToTheShift()
        {
            constexpr int longEnough = 120;
            constexpr int morning = 8 * 60;
            constexpr int day = 24 * 60;
            const HouseRules rules = m_house.site().rules;
            const QTime time =
                QDateTime::fromMSecsSinceEpoch(m_house.clock.now().ms, zoneOf(rules)).time();
            const int minute = time.hour() * 60 + time.minute();
            if (minute < morning)
                m_house.clock.goOn(morning - minute);
            else if (minute > rules.shiftEndMinute - longEnough)
                m_house.clock.goOn(day + morning - minute);
        }

        /// The oldest car, from its next work to its release, by touch; two or three pieces of work
        /// a round, the rest of them elsewhere.
        bool wallRound()
        {
            const QString stock = m_cars.front();
            if (!m_hands->openCar(stock))
                return false;
            for (int done = 0; done < 3 && !m_hands->nothingHolds();) {
                keepToTheShift();
                const int next = m_hands->nextOperation();
                if (next == 0) {
                    if (!m_hands->waitFor(stock, dryingMinutes))
                        return false;
                    if (++m_waits > mostSteps)
                        return m_visitor->fail(QStringLiteral("the work does not come to an end"));
                    continue;
                }
                if (!m_hands->workOff(stock, next))
                    return false;
                m_waits = 0;
                ++done;
                ++m_operations;
            }
            m_crew.finishAll(m_house.carByStock(stock));
            if (QTest::currentTestFailed())
                return m_visitor->fail(QStringLiteral("the crew stopped at %1").arg(stock));
            return release(stock);
        }

        bool release(const QString& stock)
        {
            RecordView* record = m_app.shell().record();
            if (!m_hands->signIn(QStringLiteral("Odo Farlane")) || !m_hands->openCar(stock) ||
                !m_visitor->tap(QStringLiteral("Release")) ||
                !m_visitor->tap(QStringLiteral("Sign and release to sale")) ||
                !m_visitor->until([this] { return !m_visitor->ofType("PinPad").empty(); },
                                  QStringLiteral("the PIN again")) ||
                !m_visitor->type(BenchHouse::pin()) ||
                !m_visitor->until([&] { return record->made(); }, QStringLiteral("the record")) ||
                !m_visitor->tap(QStringLiteral("Save as PDF")) ||
                !m_visitor->until([&] { return !record->savedPath().isEmpty(); },
                                  QStringLiteral("the saved record")))
                return false;
            QFile::remove(record->savedPath());
            ++m_released;
            m_cars.removeFirst();
            comesIn();
            return m_hands->home();
        }

        /// As another kiosk would.
        bool elsewhere()
        {
            const QString stock = m_cars.takeAt(1 + m_rounds % (carsInHouse - 1));
            const CarId car = m_house.carByStock(stock);
            m_crew.finishAll(car);
            m_house.must(m_house.person(QStringLiteral("Odo")), car, {car::Release{}});
            if (QTest::currentTestFailed())
                return m_visitor->fail(QStringLiteral("the crew stopped at %1").arg(stock));
            ++m_elsewhere;
            comesIn();
            return true;
        }

        /// What is in the drop folder is another picture from now on: one counts once for a piece
        /// of work.
        bool photograph()
        {
            return demo::drawPicture(PlaceId{QStringLiteral("wheel-front-left")},
                                     PhotoMoment::After, QStringLiteral("K-7"), m_pictures++)
                .save(m_house.dropFolder() + QStringLiteral("/photo.jpg"));
        }

        bool look()
        {
            return m_hands->signIn(QStringLiteral("Ivo Kesteven")) &&
                   m_visitor->tap(QStringLiteral("My next")) && planned() && m_hands->home() &&
                   m_visitor->tap(QStringLiteral("Bays")) && planned() &&
                   m_visitor->tap(QStringLiteral("By bay")) &&
                   m_visitor->tap(QStringLiteral("By person")) &&
                   m_visitor->tap(QStringLiteral("Cars")) && m_hands->home();
        }

        bool planned()
        {
            return m_visitor->until(
                [this] {
                    return m_app.shell().plan()->planned() && !m_app.shell().plan()->working();
                },
                QStringLiteral("the plan"));
        }

        BenchHouse& m_house;
        BenchCrew m_crew;
        Moment m_start;
        KioskApp m_app;
        std::unique_ptr<Visitor> m_visitor;
        std::unique_ptr<Hands> m_hands;
        std::unique_ptr<Frames> m_frames;
        QStringList m_cars; ///< stock numbers, the oldest first
        int m_came = 0;
        int m_rounds = 0;
        int m_pictures = 0;
        int m_waits = 0;
        int m_operations = 0;
        int m_released = 0;
        int m_elsewhere = 0;
    };
};

QTEST_MAIN(TestSoak)
#include "tst_soak.moc"
