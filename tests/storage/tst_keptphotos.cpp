// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../evidence/samples.h"
#include "kioskbench.h"

#include "evidence/photodecoder.h"
#include "evidence/photostore.h"
#include "evidence/standbyshelf.h"
#include "storage/sqlphotoshelf.h"
#include "support/testmain.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QThreadPool>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// A kiosk's photos, as main.cpp has them.
std::unique_ptr<PhotoKeeper> kioskPhotos(const StoreSettings& kiosk)
{
    return std::make_unique<PhotoKeeper>(
        std::make_unique<StandbyShelf>(std::make_unique<SqlPhotoShelf>(kiosk), kiosk.keptPhotos));
}

/// Another kiosk's, whose line is whole.
std::unique_ptr<PhotoKeeper> serverPhotos(const House& house)
{
    return std::make_unique<PhotoKeeper>(
        std::make_unique<SqlPhotoShelf>(house.database.settings()));
}

/// Files that wait in a kiosk's folder, thumbnails too.
QStringList filesIn(const QString& folder)
{
    QStringList files;
    QDirIterator all(folder, QDir::Files, QDirIterator::Subdirectories);
    while (all.hasNext())
        files.append(all.next().mid(folder.size() + 1));
    files.sort();
    return files;
}

void copyAll(const QString& from, const QString& to)
{
    QVERIFY(QDir().mkpath(to));
    for (const QString& file : filesIn(from)) {
        const QString target = to + QLatin1Char('/') + file;
        QVERIFY(QDir().mkpath(QFileInfo(target).absolutePath()));
        QVERIFY(QFile::copy(from + QLatin1Char('/') + file, target));
    }
}

/// The server itself refuses an entry that names a photo whose bytes it has not.
void guardOrder(House& house)
{
    for (const char* statement :
         {"CREATE FUNCTION bytes_first() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN"
          " IF NOT EXISTS (SELECT 1 FROM photo_bytes WHERE site = NEW.site AND form = 'full'"
          " AND photo = NEW.body::json->>'photo')"
          " THEN RAISE EXCEPTION 'an entry came before its photo'; END IF;"
          " RETURN NEW; END $$",
          "CREATE TRIGGER bytes_first BEFORE INSERT ON ledger FOR EACH ROW"
          " WHEN (NEW.type = 'photo-attached') EXECUTE FUNCTION bytes_first()"})
        QCOMPARE(house.database.sql(QString::fromLatin1(statement)), QString());
}

std::vector<PhotoSpec> twoPhotos()
{
    return {{PhotoMoment::Before, QStringLiteral("before")},
            {PhotoMoment::After, QStringLiteral("after")}};
}

QImage picture(int seed)
{
    return samples::panel({800, 600}, seed);
}

QString attach(Kiosk& kiosk, const House& house, const PhotoId& photo, PhotoMoment moment)
{
    return kiosk.ask(house.who, house.car, {car::AttachPhoto{photo, moment, {}, house.work, {}}});
}

QString reading(Kiosk& kiosk, const House& house)
{
    return kiosk.ask(house.who, house.car,
                     {car::TakeReading{house.work, "papers", {}, answer("agree"), {}}});
}

/// Every fault of the ledger and of the photos on the server, but that guardOrder() was there.
QString faults(const House& house)
{
    const auto store = house.database.open();
    const auto photos = serverPhotos(house);
    return told(Verifier(store->ledger(),
                         [&photos](const std::set<PhotoId>& known) {
                             return photos->verify(known).value();
                         })
                    .run())
        .remove(QStringLiteral("schema: the trigger bytes_first of ledger is none of the "
                               "program's"));
}

} // namespace

// Photos of a house that has them on its server, while that is away.
class TestKeptPhotos : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }

    void init() { m_folder = std::make_unique<QTemporaryDir>(); }

    void shelf_serverAway_keepsHere_data()
    {
        QTest::addColumn<bool>("hangs");
        QTest::newRow("cut") << false;
        QTest::newRow("hangs") << true;
    }

    void shelf_serverAway_keepsHere()
    {
        QFETCH(bool, hangs);
        House house;
        const StoreSettings kiosk = house.kiosk(m_folder->filePath(QStringLiteral("standby")));
        auto photos = kioskPhotos(kiosk);
        const PhotoId there = photos->keep(picture(1)).value().id;
        QCOMPARE(filesIn(kiosk.keptPhotos), QStringList());
        hangs ? house.wire.hang() : house.wire.cut();

        // Several at once, as from a phone and the camera.
        std::vector<PhotoId> kept(4);
        QThreadPool pool;
        for (int i = 0; i < 4; ++i)
            pool.start([&, i] {
                if (const auto one = photos->keep(picture(10 + i)))
                    kept[static_cast<std::size_t>(i)] = one->id;
            });
        pool.waitForDone();
        for (const PhotoId& one : kept) {
            QVERIFY(isPhotoId(one));
            QCOMPARE(photoIdOf(photos->open(one).value()), one);
            QCOMPARE(decodePhoto(photos->thumbnail(one, ThumbnailSize::Card).value())->size(),
                     QSize(160, 120));
        }
        QCOMPARE(photos->keep(picture(10)).value().id, kept.front()); // once more
        QCOMPARE(filesIn(kiosk.keptPhotos).size(), 4 * 3);
        QCOMPARE(photos->open(there).error(), EvidenceError::DatabaseAway);
        // Nobody else may read them.
        QVERIFY((QFile::permissions(kiosk.standby) & (QFile::ReadGroup | QFile::ReadOther)) == 0);
        // Nor does the end wait for ever for the server that hangs.
        photos.reset();
        // Another start of the program.
        photos = kioskPhotos(kiosk);
        QVERIFY(photos->open(kept.front()));
        QVERIFY(!photos->remove(kept.front(), Moment{INT64_MAX}).value());
        QVERIFY(serverPhotos(house)->open(there));
        QCOMPARE(serverPhotos(house)->open(kept.front()).error(), EvidenceError::NoSuchPhoto);
    }

    void signOffWithPhotos_whileAway_arrivesWhole_data()
    {
        QTest::addColumn<bool>("hangs");
        QTest::newRow("cut") << false;
        QTest::newRow("hangs") << true;
    }

    void signOffWithPhotos_whileAway_arrivesWhole()
    {
        QFETCH(bool, hangs);
        House house(twoPhotos());
        guardOrder(house);
        const StoreSettings settings = house.kiosk(m_folder->filePath(QStringLiteral("standby")));
        const auto photos = kioskPhotos(settings);
        Kiosk kiosk(house, settings.standby);
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        // One as always, and then the server goes.
        const PhotoId before = photos->keep(picture(1)).value().id;
        QCOMPARE(attach(kiosk, house, before, PhotoMoment::Before), done);
        QTRY_VERIFY_WITH_TIMEOUT(house.isCopied(settings.standby, house.car), patientMs);
        hangs ? house.wire.hang() : house.wire.cut();
        const PhotoId during = photos->keep(picture(2)).value().id;
        const PhotoId after = photos->keep(picture(3)).value().id;
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        house.clock.pass(20);
        QCOMPARE(attach(kiosk, house, during, PhotoMoment::During), done);
        QCOMPARE(reading(kiosk, house), done);
        // The rules are those of always: without its photo it is not signed.
        QCOMPARE(kiosk.ask(house.who, house.car, {car::SignOff{house.work, {}}}),
                 no(RefusalId::EvidenceOpen));
        QCOMPARE(attach(kiosk, house, after, PhotoMoment::After), done);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::SignOff{house.work, "whole"}}), done);
        QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(4));
        QVERIFY(photos->open(after));
        QVERIFY(serverPhotos(house)->open(after).error() == EvidenceError::NoSuchPhoto);

        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        QCOMPARE(house.entries(house.car).count(QStringLiteral("photo-attached")), 3);
        QCOMPARE(house.entries(house.car).count(QStringLiteral("operation-signed")), 1);
        QCOMPARE(filesIn(settings.keptPhotos), QStringList());
        for (const PhotoId& one : {before, during, after}) {
            QVERIFY(serverPhotos(house)->open(one));
            QTRY_VERIFY_WITH_TIMEOUT(photos->open(one).has_value(), patientMs);
        }
        QCOMPARE(faults(house), QString());
    }

    void killedKiosk_hasItsPhotos_andSendsThemOnce()
    {
        House house(twoPhotos());
        guardOrder(house);
        const QString copy = m_folder->filePath(QStringLiteral("as-it-lay"));
        const StoreSettings settings = house.kiosk(m_folder->filePath(QStringLiteral("standby")));
        PhotoId photo;
        {
            const auto photos = kioskPhotos(settings);
            Kiosk kiosk(house, settings.standby);
            QVERIFY(resultOf(kiosk.opening));
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
            house.wire.cut();
            QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
            photo = photos->keep(picture(1)).value().id;
            QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
            QCOMPARE(attach(kiosk, house, photo, PhotoMoment::Before), done);
            // The folder as a kill leaves it: copied while it is at work.
            copyAll(settings.standby, copy);
        }
        const StoreSettings again = house.kiosk(copy);
        {
            const auto photos = kioskPhotos(again);
            Kiosk kiosk(house, copy);
            QVERIFY(resultOf(kiosk.opening));
            QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(2));
            QVERIFY(photos->open(photo));
            house.wire.heal();
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
            QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
            QCOMPARE(filesIn(again.keptPhotos), QStringList());
            QCOMPARE(photoIdOf(serverPhotos(house)->open(photo).value()), photo);
        }
        // Killed after the server had it and before it was removed here: it is there once.
        Kiosk kiosk(house, settings.standby);
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().shared && !kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        QCOMPARE(filesIn(settings.keptPhotos), QStringList());
        QCOMPARE(house.database.ask(QStringLiteral("SELECT count(*) FROM photo_bytes")).toInt(), 3);
        QCOMPARE(house.entries(house.car).count(QStringLiteral("photo-attached")), 1);
        QCOMPARE(faults(house), QString());
    }

    // Only the photos' own connection was away: nobody noticed, and the order still holds.
    void photosAwayAlone_bytesStillComeFirst()
    {
        House house(twoPhotos());
        guardOrder(house);
        StoreSettings settings = house.kiosk(m_folder->filePath(QStringLiteral("standby")));
        Wire aside(house.database.settings().server);
        StoreSettings ofPhotos = settings;
        ofPhotos.server = aside.address();
        const auto photos = kioskPhotos(ofPhotos);
        Kiosk kiosk(house, settings.standby);
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        aside.cut();
        const PhotoId photo = photos->keep(picture(1)).value().id;
        QVERIFY(!filesIn(settings.keptPhotos).isEmpty());
        QCOMPARE(attach(kiosk, house, photo, PhotoMoment::Before), done);
        QVERIFY(!kiosk.standing().away);
        QCOMPARE(filesIn(settings.keptPhotos), QStringList());
        QVERIFY(serverPhotos(house)->open(photo));
        // What nobody names yet goes by itself.
        const PhotoId other = photos->keep(picture(2)).value().id;
        QTRY_COMPARE_WITH_TIMEOUT(filesIn(settings.keptPhotos), QStringList(), patientMs);
        QVERIFY(serverPhotos(house)->open(other));
    }

    void photoThatSpoiledHere_isSaid_andTheRestArrives()
    {
        House house(twoPhotos());
        guardOrder(house);
        const StoreSettings settings = house.kiosk(m_folder->filePath(QStringLiteral("standby")));
        const auto photos = kioskPhotos(settings);
        Kiosk kiosk(house, settings.standby);
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        house.wire.cut();
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        const PhotoId good = photos->keep(picture(1)).value().id;
        const PhotoId bad = photos->keep(picture(2)).value().id;
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        QCOMPARE(attach(kiosk, house, bad, PhotoMoment::Before), done);
        QCOMPARE(attach(kiosk, house, good, PhotoMoment::After), done);
        {
            QFile file(FolderShelf(settings.keptPhotos).pathOf(bad, PhotoForm::Full));
            QVERIFY(file.open(QIODevice::ReadWrite));
            QVERIFY(file.seek(file.size() / 2));
            QCOMPARE(file.write("scribble"), qint64{8});
        }
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(1));
        QVERIFY2(kiosk.standing().kept.front().refusal.contains(QStringLiteral("photo again")),
                 qPrintable(kiosk.standing().kept.front().refusal));
        QCOMPARE(house.entries(house.car).count(QStringLiteral("photo-attached")), 1);
        QVERIFY(serverPhotos(house)->open(good));
        // Nothing is thrown away.
        QVERIFY(QFile::exists(settings.keptPhotos + QStringLiteral("/damaged/") + bad.text +
                              QStringLiteral(".jpg")));
        QCOMPARE(faults(house), QString());
    }

    // Of what was found while it was away, whatever number that has on the server.
    void photoOfAFinding_arrivesAtThatFinding_bytesFirst()
    {
        House house(twoPhotos());
        guardOrder(house);
        const StoreSettings settings = house.kiosk(m_folder->filePath(QStringLiteral("standby")));
        const auto photos = kioskPhotos(settings);
        Kiosk kiosk(house, settings.standby);
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        house.wire.cut();
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        const FindingData cut = finding("tyre-front-left", Condition::Cut);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::RecordFinding{cut, {}}}), done);
        const FindingId here = kiosk.car(house.car).findings.rbegin()->first;
        const PhotoId photo = photos->keep(picture(1)).value().id;
        QCOMPARE(kiosk.ask(house.who, house.car,
                           {car::AttachPhoto{photo, PhotoMoment::Before, cut.place, {}, here}}),
                 done);
        {
            const auto store = house.database.open();
            Workshop workshop(store->ledger(), house.clock, house.bench.catalogue);
            QVERIFY(workshop.run(
                CarRequest{CommandId{"else"},
                           house.bench.appraiser,
                           house.car,
                           {car::RecordFinding{finding("bonnet", Condition::Scratch), {}}},
                           true}));
        }
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        const CarState now = kiosk.car(house.car);
        QCOMPARE(now.finding(here)->data().place, PlaceId{"bonnet"});
        QCOMPARE(now.photos.size(), std::size_t(1));
        QVERIFY(now.photos.front().finding != here);
        QCOMPARE(now.finding(now.photos.front().finding)->data(), cut);
        QCOMPARE(photoIdOf(serverPhotos(house)->open(photo).value()), photo);
        QCOMPARE(filesIn(settings.keptPhotos), QStringList());
        QCOMPARE(faults(house), QString());
    }

    // It answers, and takes no photos: what is kept stays, and the wall says why.
    void serverThatTakesNone_isToldApart()
    {
        House house(twoPhotos());
        const StoreSettings settings = house.kiosk(m_folder->filePath(QStringLiteral("standby")));
        const auto photos = kioskPhotos(settings);
        Kiosk kiosk(house, settings.standby);
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        house.wire.cut();
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        const PhotoId photo = photos->keep(picture(1)).value().id;
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        QCOMPARE(attach(kiosk, house, photo, PhotoMoment::Before), done);
        QCOMPARE(house.database.sql(QStringLiteral(
                     "ALTER TABLE photo_bytes ADD CONSTRAINT none CHECK (false) NOT VALID")),
                 QString());
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().hindrance.isEmpty(), patientMs);
        QVERIFY(kiosk.standing().away);
        QVERIFY(!kiosk.standing().kept.empty());
        QVERIFY(photos->open(photo));
        QCOMPARE(house.database.sql(QStringLiteral("ALTER TABLE photo_bytes DROP CONSTRAINT none")),
                 QString());
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().hindrance, QString());
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        QVERIFY(serverPhotos(house)->open(photo));
    }

private:
    std::unique_ptr<QTemporaryDir> m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestKeptPhotos)
#include "tst_keptphotos.moc"
