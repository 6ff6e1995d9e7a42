// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../domain/randomworkshop.h"
#include "../storage/storagebench.h"
#include "amount.h"
#include "cli/program.h"
#include "flipbench.h"

#include "backup/restore.h"
#include "evidence/photostore.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QDir>
#include <QMap>
#include <QRandomGenerator>
#include <QTemporaryDir>
#include <QTest>

#include <algorithm>
#include <optional>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const Moment evening{1'930'000'000'000};

HeadKeeper keeperOfHouse()
{
    HeadKeeper keeper = keeperWith();
    keeper.keyId = QStringLiteral("of the house");
    return keeper;
}

/// Each stream's entries by its name: number and hash, which is over everything else.
using Streams = QMap<QString, QStringList>;

Streams streamsIn(const QString& file)
{
    StoreSettings settings;
    settings.file = file;
    const auto connection = Connection::open(settings);
    if (!connection)
        qFatal("%s", qPrintable(connection.error().words));
    Streams streams;
    auto rows = (*connection)->run("SELECT stream, seq, hash FROM ledger ORDER BY stream, seq");
    while (rows->next())
        streams[rows->text(0)].append(rows->text(1) + QLatin1Char(' ') + rows->text(2));
    return streams;
}

/// People who worked before a backup, and after it: as the seed has it.
class BackedHouse
{
public:
    explicit BackedHouse(quint64 seed)
        : m_database(StoreKind::Sqlite)
    {
        Tally tally;
        RandomWorkshop people(seed, tally);
        if (!people.run(40))
            qFatal("%s", qPrintable(people.what()));
        const auto before = people.ledger().accepted().size();
        if (!people.run(60))
            qFatal("%s", qPrintable(people.what()));
        const std::vector<Append> all = people.ledger().accepted();
        const auto middle = all.begin() + static_cast<std::ptrdiff_t>(before);
        const PhotoStore photos(in("photos"));
        {
            const auto store = m_database.open(keeperOfHouse());
            writeInto(*store, {all.begin(), middle});
            const auto backup = makeBackup(
                {m_database.settings(), keeperOfHouse(), photos, in("transcripts"),
                 in("corrections.jsonl"), QStringLiteral("test"), [] { return KnownCatalogues(); }},
                in("stick"), evening);
            if (!backup)
                qFatal("%s", qPrintable(backup.error()));
            m_backup = *backup;
            writeInto(*store, {middle, all.end()});
            if (!store->credentials().setPinHash(PersonId{1}, "a later hash"))
                qFatal("no PIN");
        }
        if (!ramplight::test::write(in("key"), "the key file"))
            qFatal("no key file");
        m_bytes = bytesOf(m_database.settings().file);
        m_ofBackup = streamsIn(m_backup->path + QStringLiteral("/ledger.sqlite"));
        m_whole = streamsIn(m_database.settings().file);
    }

    [[nodiscard]] const QByteArray& bytes() const { return m_bytes; }
    [[nodiscard]] const Streams& ofBackup() const { return m_ofBackup; }
    [[nodiscard]] const Streams& whole() const { return m_whole; }
    [[nodiscard]] QString file() const { return in("house/workshop.sqlite"); }

    /// The house is damaged, and brought back.
    [[nodiscard]] tl::expected<Restored, QString> comeBackFrom(const QByteArray& damaged) const
    {
        for (const QString& name : QDir(in("")).entryList({QStringLiteral("house*")}, QDir::Dirs))
            QDir(in(qPrintable(name))).removeRecursively();
        if (!QDir().mkpath(in("house")) || !ramplight::test::write(file(), damaged))
            qFatal("the house cannot be put there");
        return restore({*m_backup,
                        in("house"),
                        {QStringLiteral("workshop.sqlite"), QStringLiteral("site.keys"),
                         QStringLiteral("photos"), QStringLiteral("transcripts"),
                         QStringLiteral("corrections.jsonl"), QStringLiteral("settings.ini"),
                         QStringLiteral("restored.json")},
                        in("key"),
                        keeperOfHouse(),
                        evening,
                        {},
                        true});
    }
    /// What the check finds in the house, but photos: the people of the bench take none.
    [[nodiscard]] QStringList faults(const QStringList& toldAgainstRules) const
    {
        StoreSettings settings;
        settings.file = file();
        const auto ledger = SqlLedger::open(settings, keeperOfHouse());
        if (!ledger)
            return {ledger.error().words};
        QStringList faults;
        for (const LedgerFault& fault : Verifier(**ledger).run().faults)
            if (!toldAgainstRules.contains(fault.told()))
                faults.append(fault.told());
        return faults;
    }

private:
    [[nodiscard]] QString in(const char* name) const
    {
        return m_folder.filePath(QString::fromLatin1(name));
    }
    static void writeInto(Store& store, const std::vector<Append>& appends)
    {
        if (const auto written = replay(appends, store.ledger()); !written)
            qFatal("%s", qPrintable(written.error().words));
    }

    QTemporaryDir m_folder;
    TestDatabase m_database;
    std::optional<Backup> m_backup;
    QByteArray m_bytes;
    Streams m_ofBackup;
    Streams m_whole;
};

/// What a disk does to a file: pages that are nothing, something else or an older one; bits; and a
/// page that has fewer rows than it had, which nothing in it tells.
class Disk
{
public:
    explicit Disk(quint32 seed)
        : m_random(seed)
    {
    }

    QByteArray harm(QByteArray bytes)
    {
        const int pages = 1 + m_random.bounded(3);
        for (int i = 0; i < pages; ++i)
            harmPage(bytes);
        return bytes;
    }

private:
    static constexpr qsizetype page = 4096;

    void harmPage(QByteArray& bytes)
    {
        const auto pages = static_cast<int>(bytes.size() / page);
        const qsizetype at = page * m_random.bounded(pages);
        switch (m_random.bounded(6)) {
        case 0:
            bytes.replace(at, page, QByteArray(page, '\0'));
            break;
        case 1:
            bytes.replace(at, page, QByteArray(page, '\x5a'));
            break;
        case 2:
            bytes.replace(at, page, bytes.mid(page * m_random.bounded(pages), page));
            break;
        case 3:
            for (int bit = 1 + m_random.bounded(20); bit > 0; --bit)
                bytes = withBitTurned(std::move(bytes), 8 * at + m_random.bounded(int{8 * page}));
            break;
        case 4:
            bytes.truncate(std::max(at, page));
            bytes.append(QByteArray(page, '\0'));
            break;
        default:
            loseRows(bytes);
        }
    }

    /// A leaf says that it has fewer (sqlite.org/fileformat2.html, 1.6).
    void loseRows(QByteArray& bytes)
    {
        constexpr char leafOfAnIndex = 10;
        constexpr char leafOfATable = 13;
        QList<qsizetype> leaves;
        for (qsizetype at = page; at < bytes.size(); at += page)
            if (bytes.at(at) == leafOfAnIndex || bytes.at(at) == leafOfATable)
                leaves.append(at);
        if (leaves.isEmpty())
            return;
        const qsizetype cells = leaves.at(m_random.bounded(static_cast<int>(leaves.size()))) + 4;
        const auto count = static_cast<quint8>(bytes.at(cells));
        if (count > 1)
            bytes[cells] = static_cast<char>(m_random.bounded(1, int{count}));
    }

    QRandomGenerator m_random;
};

} // namespace

// Pages of a house's file are damaged, and it is brought back from a backup. Of each car and of the
// site there is then what was written, all of it, or what the backup had; what of it is the
// backup's was told.
class TestTornHouse : public QObject
{
    Q_OBJECT

private slots:
    void pagesOfTheFile_whatComesIsWhole_whatDoesNotIsTold_data()
    {
        QTest::addColumn<quint32>("seed");
        QRandomGenerator random = toldRandom();
        for (int house = 0; house < std::max(1, m_rounds / m_roundsOfAHouse); ++house) {
            const quint32 seed = random.generate();
            QTest::addRow("%u", seed) << seed;
        }
    }

    void pagesOfTheFile_whatComesIsWhole_whatDoesNotIsTold()
    {
        QFETCH(const quint32, seed);
        const BackedHouse house(seed);
        Disk disk(seed);
        int all = 0;
        int some = 0;
        for (int round = 0; round < m_roundsOfAHouse; ++round) {
            const auto restored = house.comeBackFrom(disk.harm(house.bytes()));
            const QString where = QStringLiteral("round %1: ").arg(round);
            QVERIFY2(restored, qPrintable(where + (restored ? QString() : restored.error())));
            const QString wrong = wrongIn(house, *restored);
            QVERIFY2(wrong.isEmpty(), qPrintable(where + wrong));
            const Salvaged& since = restored->since;
            const bool isAll =
                since.leftBehind.empty() && !since.siteLeftBehind && !since.perhapsMore;
            all += isAll ? 1 : 0;
            some += !isAll && since.entries > 0 ? 1 : 0;
        }
        qInfo("%d rounds: all came %d times, some of it %d times", m_roundsOfAHouse, all, some);
    }

private:
    [[nodiscard]] static QString wrongIn(const BackedHouse& house, const Restored& restored)
    {
        const Streams is = streamsIn(house.file());
        const Salvaged& since = restored.since;
        // What is taken is chosen so that the check of it all finds nothing.
        if (since.hindrance.contains(QStringLiteral("does not fit together")))
            return since.hindrance;
        for (auto stream = house.whole().begin(); stream != house.whole().end(); ++stream) {
            const QString& name = stream.key();
            // Sealed anew behind what did not come.
            if (name == headsStream() || is.value(name) == stream.value())
                continue;
            if (is.value(name) != house.ofBackup().value(name))
                return QStringLiteral("%1 is neither what it was nor the backup's").arg(name);
            const bool isNamed =
                name == siteStream()
                    ? since.siteLeftBehind
                    : std::ranges::find(since.leftBehind, carOfStream(name), &CarLeftBehind::car) !=
                          since.leftBehind.end();
            if (!isNamed && !since.perhapsMore)
                return QStringLiteral("%1 did not come, and nobody was told: %2")
                    .arg(name, QStringList(restored.note.told.begin(), restored.note.told.end())
                                   .join(QLatin1Char(' ')));
        }
        for (auto stream = is.begin(); stream != is.end(); ++stream)
            if (!house.whole().contains(stream.key()))
                return QStringLiteral("%1 was never there").arg(stream.key());
        return house.faults(restored.againstRules).join(QLatin1Char('\n'));
    }

    static constexpr int m_roundsOfAHouse = 20;
    const int m_rounds = amount("ROUNDS", 60);
};

RAMPLIGHT_TEST(QCoreApplication, TestTornHouse)
#include "tst_tornhouse.moc"
