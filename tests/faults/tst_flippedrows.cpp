// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../evidence/samples.h"
#include "../storage/storagebench.h"
#include "amount.h"
#include "flipbench.h"

#include "evidence/photokeeper.h"
#include "storage/sitemove.h"
#include "storage/sqlphotoshelf.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QFile>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

std::unique_ptr<PhotoKeeper> photosIn(const StoreSettings& settings)
{
    return std::make_unique<PhotoKeeper>(std::make_unique<SqlPhotoShelf>(settings));
}

/// A small house with rows in every table.
class SmallHouse
{
public:
    SmallHouse()
        : database(StoreKind::Sqlite)
    {
        const auto store = database.open();
        const PhotoId photo =
            photosIn(database.settings())->keep(samples::panel({160, 120}, 1)).value().id;
        const CarId car = bench.appraised();
        bench.found(car, "steering", Condition::Loose);
        bench.must(bench.mechanic, car,
                   car::AttachPhoto{photo, PhotoMoment::Before, {"steering"}, {}, FindingId{1}});
        bench.start(car, bench.open(car, "steering-part"), bench.technician);
        if (const auto written = replay(bench.ledger.accepted(), store->ledger()); !written)
            qFatal("%s", qPrintable(written.error().words));
        const Moment now = bench.clock.now();
        if (!store->credentials().setPinHash(bench.mechanic, "one hash") ||
            !store->credentials().setPinHash(bench.checker, "another hash") ||
            !store->credentials().setBadge(bench.mechanic, QStringLiteral("RLB-4711")) ||
            !store->failures().add(bench.mechanic, {SignInMark::Kind::WrongPin, now}) ||
            !store->failures().add(bench.mechanic, {SignInMark::Kind::WrongPin, now}))
            qFatal("the staff cannot be written");
        Connection& connection = store->ledger().connection();
        if (!unmarkMoved(connection, store->ledger().siteId(), {now, QStringLiteral("there")}))
            qFatal("no move can be noted");
    }

    [[nodiscard]] const QString& file() const { return database.settings().file; }
    /// Why it does not open, or the check's first fault; empty: all is whole.
    [[nodiscard]] QString check() const
    {
        const auto store = Store::open(database.settings(), keeperWith());
        if (!store)
            return store.error().words;
        const auto photos = photosIn(database.settings());
        const VerifyReport report = Verifier((*store)->ledger(), photoCheck(*photos)).run();
        return report.isWhole() ? QString() : report.faults.front().told();
    }

    Workbench bench;
    TestDatabase database;
};

} // namespace

// One bit turns in a row of each table of the house's file: the check of the workshop finds it, or
// it does not open, or it is said here why that is of no consequence.
class TestFlippedRows : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        m_house = std::make_unique<SmallHouse>();
        QCOMPARE(m_house->check(), QString());
        QFile file(m_house->file());
        QVERIFY(file.open(QIODevice::ReadOnly));
        m_bytes = file.readAll();
        m_content = contentOf(m_house->file());
        QVERIFY(!m_content.isEmpty());
    }

    void bitOfARow_isFoundOrWithoutEffect_data()
    {
        QTest::addColumn<QString>("table");
        for (const QString& table : tablesOf(m_house->file()))
            QTest::addRow("%s", qPrintable(table)) << table;
    }

    void bitOfARow_isFoundOrWithoutEffect()
    {
        QFETCH(const QString, table);
        const std::vector<RowPlace> rows = rowsOf(m_house->file(), m_bytes, table);
        QVERIFY(!rows.empty());
        QRandomGenerator random = toldRandom();
        int found = 0;
        int silent = 0;
        QStringList wrong;
        for (int round = 0; round < m_rounds; ++round) {
            // Each byte of a short row in turn, so that no column is left to luck.
            const RowPlace& row = rows.at(static_cast<std::size_t>(round) % rows.size());
            const qint64 byte =
                row.at + (row.length > m_rounds ? random.bounded(row.length)
                                                : round / static_cast<int>(rows.size()) %
                                                      static_cast<int>(row.length));
            const QByteArray bytes = withBitTurned(m_bytes, byte * 8 + random.bounded(8));
            QVERIFY(putDatabase(m_house->file(), bytes));
            if (!m_house->check().isEmpty()) {
                ++found;
                continue;
            }
            QVERIFY(putDatabase(m_house->file(), bytes));
            const Content is = contentOf(m_house->file());
            ++silent;
            if (const QString difference = firstDifference(m_content, is); !difference.isEmpty())
                wrong.append(difference);
        }
        QVERIFY(putDatabase(m_house->file(), m_bytes));
        qInfo("%s: %d found, %d without effect", qPrintable(table), found, silent);
        QVERIFY2(wrong.isEmpty(), qPrintable(wrong.join(QLatin1Char('\n'))));
    }

private:
    std::unique_ptr<SmallHouse> m_house;
    QByteArray m_bytes;
    Content m_content;
    const int m_rounds = amount("ROUNDS", 60);
};

RAMPLIGHT_TEST(QCoreApplication, TestFlippedRows)
#include "tst_flippedrows.moc"
