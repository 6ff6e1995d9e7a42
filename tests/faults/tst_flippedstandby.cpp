// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../evidence/samples.h"
#include "../storage/keptbench.h"
#include "amount.h"

#include "evidence/photostore.h"
#include "storage/outboxrescue.h"
#include "storage/photooutbox.h"
#include "storage/photorows.h"
#include "storage/standbyfiles.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QFileInfo>
#include <QRandomGenerator>
#include <QSqlDatabase>
#include <QSqlQuery>
#include <QSqlRecord>
#include <QTest>

#include <optional>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// What a kiosk would show and decide by while its server is away, out of the copy that it works
/// with: entries, the wall, who worked when, the staff. Not what only the store itself keeps:
/// positions, when the site was made, which commands it knows (the server knows them again).
QByteArray contentOfCopy(const QString& file, const SiteId& site, bool staffIsSealed)
{
    QByteArray all;
    {
        QSqlDatabase database =
            QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), QStringLiteral("copy"));
        database.setDatabaseName(file);
        if (!database.open())
            qFatal("%s cannot be opened", qPrintable(file));
        QStringList queries{
            QStringLiteral("SELECT stream, seq, at, actor, command, type, version, body, prev_hash,"
                           " hash FROM ledger WHERE site = '%1' ORDER BY stream, seq"),
            QStringLiteral("SELECT * FROM car WHERE site = '%1' ORDER BY car"),
            QStringLiteral("SELECT * FROM work_segment WHERE site = '%1' ORDER BY car, segment"),
            QStringLiteral("SELECT * FROM photo_use WHERE site = '%1' ORDER BY car, photo")};
        // Nobody signs in against a copy of the staff whose seal is broken.
        if (staffIsSealed)
            for (const char* table :
                 {"person_name", "credential", "badge", "pin_failure", "setting"})
                queries.append(QStringLiteral("SELECT * FROM ") + QLatin1StringView(table) +
                               QStringLiteral(" WHERE site = '%1' ORDER BY 2, 3"));
        for (const QString& sql : queries) {
            QSqlQuery query(database);
            if (!query.exec(sql.arg(site.text)))
                qFatal("%s", qPrintable(sql));
            all += "-- " + sql.toUtf8() + '\n';
            while (query.next())
                for (int i = 0; i < query.record().count(); ++i)
                    all += query.value(i).toByteArray() + '\n';
        }
    }
    QSqlDatabase::removeDatabase(QStringLiteral("copy"));
    return all;
}

QByteArray differenceOf(const QByteArray& is, const QByteArray& was)
{
    const QByteArrayList lines = is.split('\n');
    const QByteArrayList before = was.split('\n');
    for (qsizetype line = 0; line < std::max(lines.size(), before.size()); ++line)
        if (lines.value(line) != before.value(line))
            return "was: " + before.value(line) + "; is: " + lines.value(line);
    return {};
}

bool contains(const QStringList& all, const QStringList& some)
{
    return std::ranges::all_of(some, [&](const QString& one) { return all.contains(one); });
}

} // namespace

// One bit turns on the disk of a kiosk whose server is away. What it keeps is sent as it was
// written or not at all, and then it is told; what it knows is what the server had, or it says that
// it knows nothing.
class TestFlippedStandby : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        m_outboxFile = m_folder.filePath(QStringLiteral("outbox.sqlite"));
        fillOutbox(m_outboxFile, m_site, 40);
        {
            const auto outbox = Outbox::open(m_outboxFile, m_site);
            QVERIFY(outbox);
            m_told.emplace(**outbox);
        }
        m_outbox = bytesIn(m_outboxFile);
        QCOMPARE(m_told->waiting.size(), 35);

        // One with work that runs, findings and a lock, so that every table has something.
        QCOMPARE(m_house.ask(m_house.who, m_house.car, {car::StartWork{m_house.work}}), done);
        QVERIFY(m_house.server->failures().add(
            m_house.who, {SignInMark::Kind::WrongPin, m_house.bench.clock.now()}));
        QVERIFY(m_house.server->credentials().setBadge(m_house.who, QStringLiteral("badge-7")));
        QVERIFY(m_house.leaveStandby());
        m_mirrorFile = m_house.file(standbyfiles::mirror);
        m_mirror = bytesIn(m_mirrorFile);
        const auto whole = workAlone();
        QVERIFY(whole);
        m_content = *whole;
        QVERIFY(m_content.contains("work-started"));
        QVERIFY(m_content.contains("badge-7"));
    }

    void bitOfTheOutbox_data() { bitsOf(m_outbox, m_rounds); }

    void bitOfTheOutbox()
    {
        QFETCH(qint64, bit);
        for (const QString& name : QDir(m_folder.path()).entryList(QDir::Files))
            QVERIFY(QFile::remove(m_folder.filePath(name)));
        QVERIFY(putBytes(m_outboxFile, withBit(m_outbox, bit)));
        auto outbox = Outbox::open(m_outboxFile, m_site);
        if (!outbox && outbox.error().kind == StoreErrorKind::Damaged)
            outbox = rescueOutbox(m_outboxFile, m_site, Moment{1'930'000'000'000});
        if (!outbox) {
            // Refused in words, and left as it is.
            QVERIFY(!outbox.error().words.isEmpty());
            QCOMPARE(QFileInfo(m_outboxFile).size(), qint64{m_outbox.size()});
            return;
        }
        const Told is(**outbox);
        QVERIFY(contains(m_told->waiting, is.waiting));
        QVERIFY(contains(m_told->refused, is.refused));
        QVERIFY(contains(m_told->seen, is.seen));
        const auto whole = is.waiting.size() + is.refused.size() + is.seen.size();
        const auto shown = static_cast<qsizetype>(is.damaged.size());
        if (is.troubles.empty())
            QCOMPARE(whole + shown, qsizetype{40});
        else if (const KeptTrouble& trouble = is.troubles.front(); !trouble.perhapsMore)
            QVERIFY(whole + shown + trouble.lost >= 40);
    }

    void bitOfTheMirror_data() { bitsOf(m_mirror, m_rounds); }

    void bitOfTheMirror()
    {
        QFETCH(qint64, bit);
        QVERIFY(putBytes(m_mirrorFile, withBit(m_mirror, bit)));
        const auto content = workAlone();
        // Or it says that it knows nothing.
        if (content && !m_content.startsWith(*content + "-- "))
            QCOMPARE(differenceOf(*content, m_content), QByteArray());
    }

    /// One that turns a key of an index hides what the row under it says.
    void bitOfAnIndexOfTheMirror()
    {
        constexpr qint64 page = 4096;
        constexpr char leafOfAnIndex = 10; // sqlite.org/fileformat2.html, 1.6
        const QByteArray stream = "site"; // of the staff and the rules; before it the site's own id
        constexpr qsizetype intoTheId = 20;
        int turned = 0;
        for (qint64 start = page; start < m_mirror.size(); start += page) {
            if (m_mirror.at(start) != leafOfAnIndex)
                continue;
            const QByteArray leaf = m_mirror.mid(start, page);
            for (qsizetype at = leaf.indexOf(stream, intoTheId); at >= 0;
                 at = leaf.indexOf(stream, at + 1)) {
                const qint64 bit = 8 * (start + at - intoTheId) + 3;
                QVERIFY(putBytes(m_mirrorFile, withBit(m_mirror, bit)));
                const auto content = workAlone();
                if (content && !m_content.startsWith(*content + "-- "))
                    QCOMPARE(differenceOf(*content, m_content), QByteArray());
                ++turned;
            }
        }
        QVERIFY(turned > 0);
    }

    void bitOfTheMirror_isHealedByTheServer_data() { bitsOf(m_mirror, m_rounds / 4); }

    void bitOfTheMirror_isHealedByTheServer()
    {
        QFETCH(qint64, bit);
        QVERIFY(putBytes(m_mirrorFile, withBit(m_mirror, bit)));
        {
            const auto kiosk = m_house.kiosk();
            if (!kiosk->open(*m_house.server)) {
                QVERIFY(!kiosk->fault().isEmpty());
                return;
            }
            m_house.follow(*kiosk);
            // Nothing that the server lacks is made up.
            QVERIFY(kiosk->kept()->empty());
            if (!kiosk->isInStep())
                return;
        }
        const auto content = workAlone();
        QVERIFY(content);
        QCOMPARE(differenceOf(*content, m_content), QByteArray());
    }

    void bitOfAPhotoThatWaits_data()
    {
        m_shelf = m_folder.filePath(QStringLiteral("photos"));
        PhotoKeeper keeper(std::make_unique<FolderShelf>(m_shelf));
        const auto kept = keeper.keep(samples::panel({320, 240}));
        QVERIFY(kept);
        m_photo = kept->id;
        m_photoBytes = keeper.open(m_photo).value();
        bitsOf(m_photoBytes, m_rounds / 4);
    }

    void bitOfAPhotoThatWaits()
    {
        QFETCH(qint64, bit);
        const QString path = FolderShelf(m_shelf).pathOf(m_photo, PhotoForm::Full);
        QVERIFY(putBytes(path, withBit(m_photoBytes, bit)));
        const auto server = Connection::open(m_house.database.settings());
        QVERIFY(server);
        const SiteId site = m_house.server->ledger().siteId();
        PhotoOutbox photos(m_shelf);
        QCOMPARE(photos.bring(m_photo, **server, site).value(), false);
        QCOMPARE(hasPhotoRows(**server, site, m_photo).value(), false);
        QVERIFY(!photos.waits(m_photo));
        // Somebody may still see what is on it.
        const QString aside =
            m_shelf + QStringLiteral("/damaged/") + m_photo.text + QStringLiteral(".jpg");
        QCOMPARE(bytesIn(aside), withBit(m_photoBytes, bit));
    }

private:
    static void bitsOf(const QByteArray& bytes, int rounds)
    {
        QTest::addColumn<qint64>("bit");
        QRandomGenerator random = toldRandom();
        for (int round = 0; round < rounds; ++round) {
            const qint64 bit = random.bounded(bytes.size() * 8);
            QTest::addRow("bit %lld", static_cast<long long>(bit)) << bit;
        }
    }

    /// What a kiosk that is started without its server works with; nothing: it says that it knows
    /// nothing, or not as of when.
    [[nodiscard]] std::optional<QByteArray> workAlone() const
    {
        const QString working = m_house.file(standbyfiles::working);
        for (const char* part : {"-wal", "-shm", ""})
            QFile::remove(working + QLatin1StringView(part));
        const auto kiosk = m_house.kiosk();
        if (!kiosk->open(SiteId{}) || !kiosk->takeOver())
            return {};
        if (kiosk->knownAt() != m_house.bench.clock.now() ||
            kiosk->siteId() != m_house.server->ledger().siteId())
            return QByteArray("another moment, or another site");
        return contentOfCopy(working, kiosk->siteId(), kiosk->store().staffIsSealed());
    }

    const SiteId m_site{QStringLiteral("a-site")};
    QTemporaryDir m_folder;
    QString m_outboxFile;
    QByteArray m_outbox;
    std::optional<Told> m_told;
    StandbyHouse m_house;
    QString m_mirrorFile;
    QByteArray m_mirror;
    QByteArray m_content;
    QString m_shelf;
    PhotoId m_photo;
    QByteArray m_photoBytes;
    const int m_rounds = amount("ROUNDS", 12);
};

RAMPLIGHT_TEST(QCoreApplication, TestFlippedStandby)
#include "tst_flippedstandby.moc"
