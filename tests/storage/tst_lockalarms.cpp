// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"

#include "access/lockalarms.h"
#include "access/signin.h"

#include <QProcess>
#include <QTest>

#include <algorithm>
#include <csignal>
#include <unistd.h>

using namespace ramplight;
using namespace ramplight::test;
using Outcome = SignInAnswer::Outcome;

namespace {

constexpr PersonId orla{1};
constexpr PersonId bram{2};
constexpr int untilLocked = 10; // before the delay is the longest

/// The alarm is where the program ends: the lock is on the disk, and nobody was told.
struct KillingAlarm : GuessAlarm
{
    tl::expected<void, AccessError> raise(const PinGuesses&) override
    {
        ::kill(::getpid(), SIGKILL);
        return {};
    }
};

/// Who asks for a PIN at one kiosk.
struct Door
{
    Door(Store& store, GuessAlarm& alarm)
        : signIn(PinHasher(Secret(QByteArray(32, 'p')), {.passes = 1, .memoryBytes = 8192}),
                 store.credentials(), store.failures(), alarm, {}, {.hardStop = untilLocked})
    {
    }

    /// So many wrong PINs, of so many names in turn, each as soon as it is looked at; the last
    /// answer.
    SignInAnswer guess(int times, int names = 1)
    {
        SignInAnswer answer;
        for (int i = 0; i < times; ++i) {
            const auto tried = signIn.tryPin(PersonId{bram.value + i % names},
                                             Secret(QByteArrayView("000001")), now);
            if (!tried)
                qFatal("%s", qPrintable(words(tried.error())));
            answer = *tried;
            now.ms += answer.wait.count();
        }
        return answer;
    }

    SignIn signIn;
    Moment now{1'930'000'000'000};
};

/// A workshop with a manager and Bram, opened by one program.
struct Kiosk
{
    explicit Kiosk(const TestDatabase& database)
        : store(database.open())
    {
    }

    void setUp()
    {
        QVERIFY(house.run(SiteRequest{
            {QStringLiteral("set-up")}, {}, site::SetUp{"Kestrel Quay", false, {}, {}}, "Orla"}));
        QVERIFY(house.run(SiteRequest{
            {QStringLiteral("bram")}, orla, site::AddPerson{{}, {Right::Work}}, "Bram"}));
        QVERIFY(door.signIn.setPin(bram, Secret(QByteArrayView("481957"))));
    }
    /// What the managers were told.
    [[nodiscard]] std::vector<PinAlarm> told()
    {
        std::vector<PinAlarm> alarms;
        const auto history = store->ledger().siteHistory();
        if (!history)
            qFatal("%s", qPrintable(history.error().words));
        for (const SiteEnvelope& entry : *history)
            if (const auto* one = std::get_if<PinAlarm>(&entry.event))
                alarms.push_back(*one);
        return alarms;
    }
    [[nodiscard]] int marks(SignInMark::Kind kind)
    {
        const auto all = store->failures().marks(bram);
        return all ? static_cast<int>(std::ranges::count(*all, kind, &SignInMark::kind)) : -1;
    }
    /// As the desk of a kiosk does when it starts.
    void start() { QVERIFY(tellGuesses(store->failures(), alarm)); }

    std::unique_ptr<Store> store;
    StillClock clock;
    Catalogue catalogue = smallCatalogue();
    Workshop house{store->ledger(), clock, catalogue};
    HouseAlarm alarm{house};
    Door door{*store, alarm};
};

/// Another program at the same file, which is killed after so many guesses, or when it is about to
/// raise the alarm.
int guessAndDie(const QString& file, int times, int names)
{
    StoreSettings settings;
    settings.file = file;
    const auto store = Store::open(settings, keeperWith());
    if (!store)
        return 1;
    KillingAlarm alarm;
    Door(**store, alarm).guess(times, names);
    ::kill(::getpid(), SIGKILL);
    return 2;
}

/// Whether it ended so.
bool killedAfterGuesses(const TestDatabase& database, int times, int names = 1)
{
    QProcess other;
    other.start(
        QCoreApplication::applicationFilePath(),
        {"--guess", database.settings().file, QString::number(times), QString::number(names)});
    return other.waitForFinished(60'000) && other.exitStatus() == QProcess::CrashExit;
}

const std::vector<PinAlarm> once{{bram, untilLocked}};

} // namespace

// Whoever guesses a PIN until the name is locked is told of in the ledger, once, whatever happens
// in between; and what was counted stays counted.
class TestLockAlarms : public QObject
{
    Q_OBJECT

private slots:
    void lock_isToldOnce_data() { addKinds(); }

    void lock_isToldOnce()
    {
        QFETCH(StoreKind, kind);
        const TestDatabase database(kind);
        Kiosk kiosk(database);
        kiosk.setUp();
        QCOMPARE(kiosk.door.guess(untilLocked - 1).outcome, Outcome::Wrong);
        QVERIFY(kiosk.told().empty());
        QCOMPARE(kiosk.door.guess(1).outcome, Outcome::Locked);
        QVERIFY(kiosk.told() == once);
        kiosk.door.guess(3);
        kiosk.start();
        Kiosk again(database);
        again.start();
        QCOMPARE(again.door.signIn.standing(bram, again.door.now)->outcome, Outcome::Locked);
        QVERIFY(again.told() == once);
        QCOMPARE(again.marks(SignInMark::Kind::Lock), 1);
    }

    void ledgerThatRefused_isAskedAgain_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("by");
        forEachKind([](const char* prefix, StoreKind kind) {
            for (const char* by : {"a look", "a start", "a reset"})
                QTest::addRow("%s, %s", prefix, by) << kind << QString::fromLatin1(by);
        });
    }

    void ledgerThatRefused_isAskedAgain()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, by);
        TestDatabase database(kind);
        Kiosk kiosk(database);
        kiosk.setUp();
        QCOMPARE(refuseEntries(database), QString());
        QCOMPARE(kiosk.door.guess(untilLocked).outcome, Outcome::Locked);
        QCOMPARE(kiosk.marks(SignInMark::Kind::Lock), 1);
        QVERIFY(!tellGuesses(kiosk.store->failures(), kiosk.alarm));
        // With the lock its alarm would be gone.
        const Secret fresh(QByteArrayView("730284"));
        QCOMPARE(kiosk.door.signIn.setPin(bram, fresh).error(), AccessError::StoreAway);
        QCOMPARE(kiosk.marks(SignInMark::Kind::Lock), 1);
        QVERIFY(kiosk.told().empty());

        QCOMPARE(takeEntries(database), QString());
        if (by == QLatin1String("a look"))
            QCOMPARE(kiosk.door.guess(1).outcome, Outcome::Locked);
        else if (by == QLatin1String("a start"))
            Kiosk(database).start();
        else
            QVERIFY(kiosk.door.signIn.setPin(bram, fresh));
        QVERIFY(kiosk.told() == once);
        Kiosk(database).start();
        QVERIFY(kiosk.told() == once);
    }

    void twoKiosksThatMarkedTheLock_tellOnce_data() { addKinds(); }

    void twoKiosksThatMarkedTheLock_tellOnce()
    {
        QFETCH(StoreKind, kind);
        const TestDatabase database(kind);
        Kiosk one(database);
        one.setUp();
        Kiosk other(database);
        for (int i = 0; i < untilLocked; ++i)
            QVERIFY(one.store->failures().add(bram, {SignInMark::Kind::WrongPin, one.door.now}));
        for (Kiosk* kiosk : {&one, &other}) {
            kiosk->door.now.ms += kiosk == &one ? 1 : 2;
            QVERIFY(kiosk->store->failures().add(bram, {SignInMark::Kind::Lock, kiosk->door.now}));
        }
        other.start();
        one.start();
        QVERIFY(one.told() == once);
    }

    void rowAndSpread_areToldOnce_alsoAfterTheNextStart_data() { addKinds(); }

    void rowAndSpread_areToldOnce_alsoAfterTheNextStart()
    {
        QFETCH(StoreKind, kind);
        const TestDatabase database(kind);
        Kiosk kiosk(database);
        kiosk.setUp();
        // As a kiosk that was killed before it could tell, or was without its server, marked them.
        FailureBook& book = kiosk.store->failures();
        const Moment now = kiosk.door.now;
        for (int i = 0; i < 11; ++i)
            QVERIFY(book.add(bram, {SignInMark::Kind::WrongPin, now}));
        QVERIFY(book.add(bram, {SignInMark::Kind::Row, now}));
        for (int i = 0; i < 4; ++i)
            QVERIFY(book.add(PersonId{11 + i}, {SignInMark::Kind::WrongPin, now}));
        QVERIFY(book.add({}, {SignInMark::Kind::Spread, now}));
        const std::vector<PinAlarm> both{{{}, 15, false, 5}, {bram, 11, false, 1}};
        for (int start = 0; start < 2; ++start) {
            Kiosk again(database);
            again.start();
            QVERIFY(again.told() == both);
        }
        // What came later is counted for what comes later.
        QVERIFY(book.add(bram, {SignInMark::Kind::Success, {now.ms + 1}}));
        Kiosk(database).start();
        QVERIFY(kiosk.told() == both);
    }

    void lockOfNobody_isToldToNobody_data() { addKinds(); }

    void lockOfNobody_isToldToNobody()
    {
        QFETCH(StoreKind, kind);
        const TestDatabase database(kind);
        Kiosk kiosk(database);
        kiosk.setUp();
        const PersonId nobody{9};
        QVERIFY(kiosk.store->failures().add(nobody, {SignInMark::Kind::Lock, kiosk.door.now}));
        QVERIFY(kiosk.store->failures().guessedAt().value() == std::vector{nobody});
        kiosk.start();
        QVERIFY(kiosk.told().empty());
    }

    void killedBeforeTheAlarm_isToldAtTheNextStart()
    {
        const TestDatabase database(StoreKind::Sqlite);
        Kiosk(database).setUp();
        QVERIFY(killedAfterGuesses(database, 2 * untilLocked));
        Kiosk kiosk(database);
        QCOMPARE(kiosk.marks(SignInMark::Kind::WrongPin), untilLocked);
        QCOMPARE(kiosk.marks(SignInMark::Kind::Lock), 1);
        QVERIFY(kiosk.told().empty());
        kiosk.start();
        QVERIFY(kiosk.told() == once);
        kiosk.start();
        kiosk.door.guess(1);
        QVERIFY(kiosk.told() == once);
    }

    void killedWhileTryingManyNames_countsOn()
    {
        const TestDatabase database(StoreKind::Sqlite);
        Kiosk(database).setUp();
        QVERIFY(killedAfterGuesses(database, 9, 5));
        Kiosk kiosk(database);
        QVERIFY(kiosk.told().empty());
        kiosk.door.guess(1);
        QVERIFY((kiosk.told() == std::vector<PinAlarm>{{{}, 10, false, 5}}));
        kiosk.door.guess(1);
        QCOMPARE(kiosk.told().size(), std::size_t{1});
    }

    void killedWhileGuessing_keepsCountAndDelay()
    {
        const TestDatabase database(StoreKind::Sqlite);
        Kiosk(database).setUp();
        QVERIFY(killedAfterGuesses(database, 7));
        Kiosk kiosk(database);
        // The sixth cost half a minute, the seventh came then and costs a whole one.
        kiosk.door.now.ms += 40'000;
        QCOMPARE(kiosk.door.guess(1), (SignInAnswer{.outcome = Outcome::Waiting,
                                                    .wait = std::chrono::seconds(50),
                                                    .failuresInARow = 7}));
        QCOMPARE(kiosk.door.guess(untilLocked - 8).outcome, Outcome::Wrong);
        QCOMPARE(kiosk.door.guess(1).outcome, Outcome::Locked);
        QVERIFY(kiosk.told() == once);
    }

private:
    /// The ledger takes nothing more; what lies beside it is written as before.
    static QString refuseEntries(TestDatabase& database)
    {
        if (database.kind() == StoreKind::Sqlite)
            return database.sql("CREATE TRIGGER no_room BEFORE INSERT ON ledger"
                                " BEGIN SELECT RAISE(ABORT, 'no room'); END");
        const QString made =
            database.sql("CREATE FUNCTION no_room() RETURNS trigger LANGUAGE plpgsql AS"
                         " 'BEGIN RAISE EXCEPTION ''no room''; END;'");
        return made.isEmpty() ? database.sql("CREATE TRIGGER no_room BEFORE INSERT ON ledger"
                                             " FOR EACH ROW EXECUTE FUNCTION no_room()")
                              : made;
    }

    static QString takeEntries(TestDatabase& database)
    {
        return database.sql(database.kind() == StoreKind::Sqlite
                                ? "DROP TRIGGER no_room"
                                : "DROP TRIGGER no_room ON ledger");
    }
};

int main(int argc, char** argv)
{
    QCoreApplication application(argc, argv);
    const QStringList arguments = application.arguments();
    if (arguments.value(1) == QLatin1String("--guess"))
        return guessAndDie(arguments.value(2), arguments.value(3).toInt(),
                           arguments.value(4).toInt());
    TestLockAlarms test;
    return QTest::qExec(&test, argc, argv);
}

#include "tst_lockalarms.moc"
