// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../storage/tornpage.h"
#include "backedhouse.h"

#include "backup/restorenote.h"
#include "storage/sitekeycheck.h"
#include "storage/storecopy.h"
#include "storage/verifier.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// A house that was backed up, worked on and damaged, in a folder as the program lays it out.
class DamagedHouse
{
public:
    DamagedHouse()
        : m_house(StoreKind::Sqlite)
        , staying(m_house.bench.appraised())
        , other(m_house.bench.appraised())
    {
        m_house.writeOn();
        const auto backup = m_house.backUp();
        if (!backup)
            qFatal("%s", qPrintable(backup.error()));
        target.emplace(m_house, *backup);
        target->request.names.restoreNote = QStringLiteral("restored.json");
        workOn();
        moveIn();
    }

    [[nodiscard]] QString file() const { return target->path(QStringLiteral("workshop.sqlite")); }
    [[nodiscard]] Workbench& bench() { return m_house.bench; }
    [[nodiscard]] QString stockNumber(const CarId& car)
    {
        return m_house.bench.car(car).identity.stockNumber;
    }
    /// What the ledger of the house had before the damage.
    [[nodiscard]] SqlLedger& ledger() { return m_house.ledger(); }
    /// The last entry of a car is not what was written any more.
    void lose(const CarId& car) const
    {
        StoreSettings settings;
        settings.file = file();
        const auto connection = Connection::open(settings);
        if (!connection || !(*connection)->plain(QStringLiteral("DROP TRIGGER ledger_no_update")) ||
            !(*connection)
                 ->run("UPDATE ledger SET body = '{}' WHERE position ="
                       " (SELECT max(position) FROM ledger WHERE stream = ?)",
                       {carStream(car)}))
            qFatal("the entry stays");
    }
    [[nodiscard]] std::unique_ptr<SqlLedger> opened(const HeadKeeper& by = keeper()) const
    {
        StoreSettings settings;
        settings.file = file();
        auto ledger = SqlLedger::open(settings, by);
        if (!ledger)
            qFatal("%s", qPrintable(ledger.error().words));
        return std::move(*ledger);
    }
    /// What the check finds in the house as it is now, photos and all.
    [[nodiscard]] QString faults(const HeadKeeper& by = keeper()) const
    {
        const PhotoStore photos(target->path(QStringLiteral("photos")));
        return ramplight::test::told(Verifier(*opened(by), photoCheck(photos)).run());
    }

private:
    void workOn()
    {
        const FindingId worn = m_house.bench.found(staying, "brakes-front", Condition::Worn);
        photo = m_house.photos().keep(picture(9)).value().id;
        m_house.bench.must(
            m_house.bench.appraiser, staying,
            car::AttachPhoto{
                photo, PhotoMoment::Before, {QStringLiteral("brakes-front")}, {}, worn});
        m_house.bench.found(other, "wheel-front-left", Condition::Kerbed);
        arrived = m_house.bench.appraised();
        m_house.writeOn();
        if (!m_house.store().credentials().setPinHash(m_house.bench.checker, "a later hash") ||
            !write(m_house.corrections(), "{\"draft\":1}\n{\"draft\":2}\n"))
            qFatal("the day's work cannot be written");
    }
    void moveIn()
    {
        if (!QDir().mkpath(target->request.house + QStringLiteral("/photos")) ||
            !snapshot(m_house.database().settings(), file()) ||
            !QFile::copy(m_house.corrections(), target->path(QStringLiteral("corrections.jsonl"))))
            qFatal("the house cannot be put there");
        PhotoStore photos(target->path(QStringLiteral("photos")));
        if (!photos.keep(picture(9)))
            qFatal("no photo");
    }

    House m_house;

public:
    CarId staying;
    CarId other;
    CarId arrived; ///< since the backup
    PhotoId photo; ///< since the backup, of the one that stays
    std::optional<Target> target;
};

QString toldIn(const Restored& restored)
{
    QStringList lines;
    for (const QString& told : restored.note.told)
        lines.append(told);
    return lines.join(QLatin1Char('\n'));
}

} // namespace

// A damaged house is brought back from a backup, and what was done since comes along as far as its
// file has it whole.
class TestBroughtAlong : public QObject
{
    Q_OBJECT

private slots:
    void oneCarsEntryIsLost_theRestComesAlong()
    {
        DamagedHouse house;
        house.lose(house.other);
        const QByteArray damaged = bytesOf(house.file());
        const auto restored = restore(house.target->request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(house.faults(), QString());
        QCOMPARE(restored->since.cars.size(), std::size_t{2});
        const QString told = toldIn(*restored);
        QVERIFY2(told.contains(QStringLiteral("of 2 cars")), qPrintable(told));
        QVERIFY2(
            told.contains(house.stockNumber(house.other) +
                          QStringLiteral(": what was done since the backup could not be read")),
            qPrintable(told));
        {
            const auto ledger = house.opened();
            for (const CarId& car : {house.staying, house.arrived})
                QCOMPARE(ledger->car(car).value(), house.bench().car(car));
            QVERIFY(ledger->car(house.other)->seq < house.bench().car(house.other).seq);
        }
        // Its photo, too, and what reviewers changed; the house that was there is as it was.
        QVERIFY(PhotoStore(house.target->path(QStringLiteral("photos"))).open(house.photo));
        QCOMPARE(restored->photos, 4);
        QCOMPARE(bytesOf(house.target->path(QStringLiteral("corrections.jsonl"))).count('\n'), 2);
        QCOMPARE(bytesOf(restored->setAside + QStringLiteral("/workshop.sqlite")), damaged);
        QCOMPARE(house.target->beside().size(), 2);
        // Whoever looks after the cars can read it later.
        const RestoreNote note =
            readRestoreNote(house.target->path(QStringLiteral("restored.json")));
        QCOMPARE(note, restored->note);
        QVERIFY(note.isLeftBehind);
        QCOMPARE(note.at, house.target->request.now);
        QCOMPARE(note.cars, std::vector<QString>{house.stockNumber(house.other)});
        for (const QString& name :
             QDir(house.target->request.house).entryList(QDir::Files | QDir::Hidden))
            QVERIFY2(!name.contains(QStringLiteral("damaged")), qPrintable(name));
    }

    void houseThatIsWhole_goesBackToTheBackup_andThatIsTold()
    {
        DamagedHouse house;
        const auto restored = restore(house.target->request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QVERIFY2(toldIn(*restored).contains(QStringLiteral("file was whole")),
                 qPrintable(toldIn(*restored)));
        QVERIFY(!house.opened()->car(house.arrived)->exists());
        QCOMPARE(bytesOf(house.target->path(QStringLiteral("corrections.jsonl"))).count('\n'), 1);
        QCOMPARE(house.faults(), QString());
    }

    void houseThatSomebodyFoundDamaged_losesNothing()
    {
        DamagedHouse house;
        house.target->request.isFoundDamaged = true;
        const auto restored = restore(house.target->request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(differenceBetween(*house.opened(), house.ledger()).value(), QString());
        QVERIFY(!restored->note.isLeftBehind);
        QCOMPARE(restored->note.told.size(), std::size_t{1});
        QCOMPARE(house.faults(), QString());
    }

    void photoThatIsGone_isTold_andKeepsNothingBack()
    {
        DamagedHouse house;
        house.lose(house.other);
        QVERIFY(QFile::remove(
            PhotoStore(house.target->path(QStringLiteral("photos"))).pathOf(house.photo)));
        const auto restored = restore(house.target->request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QVERIFY2(toldIn(*restored).contains(QStringLiteral("missing or damaged: 1")),
                 qPrintable(toldIn(*restored)));
        QCOMPARE(house.opened()->car(house.staying).value(), house.bench().car(house.staying));
        QVERIFY2(house.faults().startsWith(QStringLiteral("photo ") + house.photo.text),
                 qPrintable(house.faults()));
    }

    void fileThatCannotBeOpened_theBackupAlone()
    {
        DamagedHouse house;
        QVERIFY(write(house.file(), "torn to pieces"));
        const auto restored = restore(house.target->request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        const QString told = toldIn(*restored);
        QVERIFY2(told.startsWith(QStringLiteral("Nothing that was done since the backup came")),
                 qPrintable(told));
        QVERIFY2(told.contains(QStringLiteral("look at every car in prep")), qPrintable(told));
        QVERIFY2(told.contains(QStringLiteral("PINs, badges and settings are as they were when")),
                 qPrintable(told));
        QVERIFY(!house.opened()->car(house.arrived)->exists());
        QCOMPARE(house.faults(), QString());
    }

    // The check of all of it has the last word.
    void whatDoesNotFit_isLeftOut_andTheBackupComesAlone()
    {
        DamagedHouse house;
        {
            const auto ledger = house.opened();
            Hand hand(*ledger);
            hand.now = {1'800'000'000'000}; // long before the entry in front of it
            QCOMPARE(outcome(ledger->append(hand.with(house.staying, {Hand::opened(99)}))),
                     QStringLiteral("ok"));
        }
        house.lose(house.other);
        const auto restored = restore(house.target->request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        const QString told = toldIn(*restored);
        QVERIFY2(told.contains(QStringLiteral("does not fit together: car/")), qPrintable(told));
        QVERIFY2(told.contains(QStringLiteral("look at every car in prep")), qPrintable(told));
        QVERIFY(!house.opened()->car(house.arrived)->exists());
        QVERIFY(!PhotoStore(house.target->path(QStringLiteral("photos"))).open(house.photo));
        QCOMPARE(restored->photos, 3);
        QCOMPARE(house.faults(), QString());
    }

    // With its log: what was entered last lies in there only.
    void logBesideTheFile_isRead()
    {
        DamagedHouse house;
        house.lose(house.other);
        QByteArray file;
        QByteArray log;
        {
            const auto ledger = house.opened();
            Hand hand(*ledger);
            hand.now = house.bench().clock.now();
            QCOMPARE(outcome(ledger->append(hand.with(CarId{QStringLiteral("late")},
                                                      {Hand::arrival(QStringLiteral("L-1"))}))),
                     QStringLiteral("ok"));
            // As the disk has it while the program is killed.
            file = bytesOf(house.file());
            log = bytesOf(house.file() + QStringLiteral("-wal"));
        }
        QVERIFY(!log.isEmpty());
        QVERIFY(write(house.file(), file));
        QVERIFY(write(house.file() + QStringLiteral("-wal"), log));
        const auto restored = restore(house.target->request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QVERIFY(house.opened()->car(CarId{QStringLiteral("late")})->exists());
        QCOMPARE(bytesOf(restored->setAside + QStringLiteral("/workshop.sqlite-wal")), log);
    }

    void keysRenewedSince_pinsOfTheDamagedFileComeAlong()
    {
        DamagedHouse house;
        HeadKeeper renewed = keeper("a key that nobody knows");
        renewed.past = {{keeper().keyId, keeper().digest}};
        {
            const auto ledger = house.opened();
            QVERIFY(renewKeys(ledger->connection(), ledger->siteId(), renewed));
        }
        {
            StoreSettings settings;
            settings.file = house.file();
            const auto store = Store::open(settings, renewed);
            QVERIFY(store);
            QVERIFY((*store)->credentials().setPinHash(house.bench().checker, "the newest hash"));
        }
        house.lose(house.other);
        house.target->request.keeper = renewed;
        const auto restored = restore(house.target->request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QVERIFY(!restored->pinsGone);
        QCOMPARE(restored->since.cars.size(), std::size_t{2});
        QCOMPARE(house.faults(renewed), QString());
        StoreSettings settings;
        settings.file = house.file();
        const auto store = Store::open(settings, renewed);
        QVERIFY(store);
        QCOMPARE((*store)->credentials().pinHash(house.bench().checker).value(),
                 std::optional<QByteArray>("the newest hash"));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestBroughtAlong)
#include "tst_broughtalong.moc"
