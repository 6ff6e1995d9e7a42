// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../evidence/samples.h"
#include "storagebench.h"
#include "support/testmain.h"
#include "wire.h"

#include "evidence/photodecoder.h"
#include "evidence/photostore.h"
#include "storage/sqlphotoshelf.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>
#include <QThreadPool>

#include <atomic>
#include <memory>
#include <optional>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const char* nameOf(PhotoForm form)
{
    return form == PhotoForm::Full ? "full" : form == PhotoForm::Card ? "card" : "panel";
}

/// A vault of each kind, and a hand in what lies behind it.
class Place
{
public:
    /// Of no kind: a folder.
    explicit Place(const std::optional<StoreKind>& kind)
    {
        if (kind) {
            m_database = std::make_unique<TestDatabase>(*kind);
            m_database->open().reset(); // makes the tables and the site
        }
        vault = std::make_unique<PhotoKeeper>(shelf());
    }

    ~Place() { vault.reset(); } // before what lies behind it
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;

    [[nodiscard]] std::unique_ptr<PhotoShelf> shelf() const
    {
        if (m_database)
            return std::make_unique<SqlPhotoShelf>(m_database->settings());
        return std::make_unique<FolderShelf>(root());
    }

    /// What stands for a form from now on; null: nothing.
    void replace(const PhotoId& id, PhotoForm form, const QByteArray& bytes)
    {
        if (m_database) {
            const QString where = QStringLiteral(" WHERE photo = '%1' AND form = '%2'")
                                      .arg(id.text, QLatin1StringView(nameOf(form)));
            const QString hex = QString::fromLatin1(bytes.toHex());
            const QString value = m_database->kind() == StoreKind::Sqlite
                                      ? QStringLiteral("x'%1'").arg(hex)
                                      : QStringLiteral("decode('%1', 'hex')").arg(hex);
            QCOMPARE(m_database->sql(bytes.isNull()
                                         ? "DELETE FROM photo_bytes" + where
                                         : "UPDATE photo_bytes SET bytes = " + value + where),
                     QString());
            return;
        }
        QFile file(FolderShelf(root()).pathOf(id, form));
        if (bytes.isNull()) {
            QVERIFY(file.remove());
            return;
        }
        QVERIFY(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
        QCOMPARE(file.write(bytes), bytes.size());
    }

    std::unique_ptr<PhotoKeeper> vault;

private:
    [[nodiscard]] QString root() const { return m_folder.filePath(QStringLiteral("photos")); }

    QTemporaryDir m_folder;
    std::unique_ptr<TestDatabase> m_database;
};

void addPlaces()
{
    QTest::addColumn<std::optional<StoreKind>>("kind");
    QTest::newRow("folder") << std::optional<StoreKind>();
    forEachKind([](const char* prefix, StoreKind kind) {
        QTest::newRow(prefix) << std::optional<StoreKind>(kind);
    });
}

/// Nothing: it was read.
std::optional<EvidenceError> errorOf(const tl::expected<QByteArray, EvidenceError>& read)
{
    return read ? std::optional<EvidenceError>() : std::optional(read.error());
}

Moment inAMinute()
{
    return Moment{QDateTime::currentMSecsSinceEpoch()}.plusMinutes(1);
}

} // namespace

// What every place for photos promises, whatever lies behind it.
class TestPhotoVault : public QObject
{
    Q_OBJECT

private slots:
    void keep_thenOpen_data() { addPlaces(); }
    void keep_thenOpen()
    {
        QFETCH(std::optional<StoreKind>, kind);
        Place place(kind);
        const QImage picture = samples::panel({800, 600});
        const auto kept = place.vault->keep(picture);
        QVERIFY(kept);
        const auto bytes = place.vault->open(kept->id);
        QVERIFY(bytes);
        QCOMPARE(*bytes, encodePhoto(picture).value());
        QCOMPARE(*kept, (StoredPhoto{photoIdOf(*bytes), QSize(800, 600), bytes->size()}));
        // Another kiosk, or this one after a start.
        const PhotoKeeper other(place.shelf());
        QCOMPARE(other.open(kept->id).value(), *bytes);
        QCOMPARE(other.list().value(), std::vector{kept->id});
    }

    void keep_twice_isKeptOnce_data() { addPlaces(); }
    void keep_twice_isKeptOnce()
    {
        QFETCH(std::optional<StoreKind>, kind);
        Place place(kind);
        const auto first = place.vault->keep(samples::panel({80, 60}));
        const auto second = place.vault->keep(samples::panel({80, 60}));
        const auto other = place.vault->keep(samples::panel({80, 60}, 2));
        QVERIFY(first && second && other);
        QCOMPARE(*first, *second);
        QVERIFY(first->id != other->id);
        QCOMPARE(place.vault->list()->size(), std::size_t{2});
        QVERIFY(place.vault->verify({first->id, other->id})->isClean());
        QCOMPARE(place.vault->keep(QImage()).error(), EvidenceError::Empty);
    }

    void keep_manyAtOnce_data() { addPlaces(); }
    void keep_manyAtOnce()
    {
        QFETCH(std::optional<StoreKind>, kind);
        Place place(kind);
        PhotoKeeper other(place.shelf());
        std::atomic<int> kept = 0;
        QThreadPool pool;
        pool.setMaxThreadCount(4);
        for (int i = 0; i < 12; ++i)
            pool.start([&, i] {
                if ((i % 2 == 0 ? *place.vault : other).keep(samples::panel({120, 90}, i % 4)))
                    ++kept;
            });
        pool.waitForDone();
        QCOMPARE(kept.load(), 12);
        const auto report = place.vault->verify({});
        QVERIFY(report);
        QCOMPARE(report->orphans.size(), std::size_t{4});
        QVERIFY(report->damaged.empty() && report->unfinished.isEmpty());
    }

    void open_whatIsNoId_data() { addPlaces(); }
    void open_whatIsNoId()
    {
        QFETCH(std::optional<StoreKind>, kind);
        Place place(kind);
        QVERIFY(place.vault->keep(samples::panel({8, 6})));
        for (const QString& id :
             {QString(), QStringLiteral("../../../../etc/passwd").leftJustified(64, u'0'),
              QString(64, u'A'), QString(63, u'a'), QString(65, u'a'), QString(64, u'a')}) {
            QCOMPARE(place.vault->open({id}).error(), EvidenceError::NoSuchPhoto);
            QCOMPARE(place.vault->thumbnail({id}, ThumbnailSize::Card).error(),
                     EvidenceError::NoSuchPhoto);
            QCOMPARE(place.vault->remove({id}, inAMinute()).value(), false);
        }
    }

    void thumbnail_sizes_data() { addPlaces(); }
    void thumbnail_sizes()
    {
        QFETCH(std::optional<StoreKind>, kind);
        Place place(kind);
        struct Sizes
        {
            QSize photo, card, panel;
        };
        for (const auto& [photo, card, panel] :
             {Sizes{{1280, 960}, {160, 120}, {640, 480}}, // lying
              Sizes{{960, 1280}, {120, 160}, {480, 640}}, // upright
              Sizes{{400, 300}, {160, 120}, {400, 300}},  // smaller than one
              Sizes{{40, 30}, {40, 30}, {40, 30}},        // smaller than both
              Sizes{{2000, 3}, {160, 1}, {640, 1}}}) {    // thin
            const auto kept = place.vault->keep(samples::panel(photo));
            QVERIFY(kept);
            const auto size = [&](ThumbnailSize which) {
                return decodePhoto(place.vault->thumbnail(kept->id, which).value())->size();
            };
            QCOMPARE(size(ThumbnailSize::Card), card);
            QCOMPARE(size(ThumbnailSize::Panel), panel);
        }
    }

    void thumbnail_goneOrBroken_isMadeAgainOnce_data() { addPlaces(); }
    void thumbnail_goneOrBroken_isMadeAgainOnce()
    {
        QFETCH(std::optional<StoreKind>, kind);
        Place place(kind);
        const auto kept = place.vault->keep(samples::panel({800, 600}));
        QVERIFY(kept);
        const auto shelf = place.shelf();
        for (const QByteArray& instead :
             {QByteArray("scribble"), samples::jpeg(samples::panel({160, 120})).chopped(20),
              QByteArray()}) {
            place.replace(kept->id, PhotoForm::Card, instead);
            const auto small = place.vault->thumbnail(kept->id, ThumbnailSize::Card);
            QVERIFY(small);
            QCOMPARE(decodePhoto(*small)->size(), QSize(160, 120));
            // Its sum stands behind it.
            QVERIFY(shelf->read(kept->id, PhotoForm::Card).value().startsWith(*small));
            QCOMPARE(place.vault->thumbnail(kept->id, ThumbnailSize::Card), small);
        }
    }

    void damaged_isNamedAndMended_data() { addPlaces(); }
    void damaged_isNamedAndMended()
    {
        QFETCH(std::optional<StoreKind>, kind);
        Place place(kind);
        const QImage picture = samples::panel({800, 600});
        const auto kept = place.vault->keep(picture);
        QVERIFY(kept);
        place.replace(kept->id, PhotoForm::Full, "scribble");
        QCOMPARE(place.vault->open(kept->id).error(), EvidenceError::KeptDamaged);
        QVERIFY(place.vault->thumbnail(kept->id, ThumbnailSize::Card)); // it still has its own
        place.replace(kept->id, PhotoForm::Card, QByteArray());
        QCOMPARE(place.vault->thumbnail(kept->id, ThumbnailSize::Card).error(),
                 EvidenceError::KeptDamaged);
        QVERIFY(place.vault->keep(picture));
        QVERIFY(place.vault->open(kept->id));
    }

    void verify_namesWhatIsWrong_data() { addPlaces(); }
    void verify_namesWhatIsWrong()
    {
        QFETCH(std::optional<StoreKind>, kind);
        Place place(kind);
        const auto keep = [&](int seed) {
            return place.vault->keep(samples::panel({80, 60}, seed))->id;
        };
        const PhotoId good = keep(1);
        const PhotoId bent = keep(2);
        const PhotoId cut = keep(3);
        const PhotoId orphan = keep(4);
        const PhotoId gone = keep(5);
        QVERIFY(place.vault->verify({good, bent, cut, orphan, gone})->isClean());
        QByteArray bytes = place.vault->open(bent).value();
        bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 1);
        place.replace(bent, PhotoForm::Full, bytes);
        place.replace(cut, PhotoForm::Full, "");
        place.replace(gone, PhotoForm::Full, QByteArray());
        const auto report = place.vault->verify({good, bent, cut, gone});
        QVERIFY(report);
        std::vector<PhotoId> damaged{bent, cut};
        std::sort(damaged.begin(), damaged.end());
        QCOMPARE(report->missing, std::vector{gone});
        QCOMPARE(report->damaged, damaged);
        QCOMPARE(report->orphans, std::vector{orphan});
        QVERIFY(!report->isClean());
    }

    void remove_takesAllForms_unlessItWasKeptAgain_data() { addPlaces(); }
    void remove_takesAllForms_unlessItWasKeptAgain()
    {
        QFETCH(std::optional<StoreKind>, kind);
        Place place(kind);
        const Moment start = Moment{QDateTime::currentMSecsSinceEpoch()}.plusMinutes(-1);
        const QImage picture = samples::panel({800, 600});
        const PhotoId id = place.vault->keep(picture)->id;
        const PhotoId other = place.vault->keep(samples::panel({80, 60}, 2))->id;
        // Somebody kept it after that moment, and may be about to name it.
        QCOMPARE(place.vault->remove(id, start).value(), false);
        QVERIFY(place.vault->open(id));
        QCOMPARE(place.vault->remove(id, inAMinute()).value(), true);
        const auto shelf = place.shelf();
        for (const PhotoForm form : {PhotoForm::Full, PhotoForm::Panel, PhotoForm::Card})
            QCOMPARE(shelf->read(id, form).error(), EvidenceError::NoSuchPhoto);
        QCOMPARE(place.vault->remove(id, inAMinute()).value(), false);
        QCOMPARE(place.vault->list().value(), std::vector{other});
        QVERIFY(place.vault->keep(picture)); // it can come back
        QVERIFY(place.vault->open(id));
    }

    void take_bringsBytesAsTheyAre_data() { addPlaces(); }
    void take_bringsBytesAsTheyAre()
    {
        QFETCH(std::optional<StoreKind>, kind);
        Place place(kind);
        // Of an encoder other than ours.
        const QByteArray bytes = samples::jpeg(samples::panel({300, 200}), 60, true);
        const PhotoId id = photoIdOf(bytes);
        QCOMPARE(place.vault->take(id, bytes).value(), true);
        QCOMPARE(place.vault->take(id, bytes).value(), false);
        QCOMPARE(place.vault->open(id).value(), bytes);
        QVERIFY(place.shelf()->read(id, PhotoForm::Card));
        QCOMPARE(place.vault->take({QString(64, u'a')}, bytes).error(), EvidenceError::KeptDamaged);
        QCOMPARE(place.vault->take(photoIdOf("no photo"), "no photo").error(),
                 EvidenceError::NotAPhoto);
    }

    // A server that was away is asked again, without a start of the program.
    void serverThatWasAway_isUsedAgain()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        TestDatabase database(StoreKind::PostgreSql);
        database.open().reset();
        Wire wire(database.settings().server);
        StoreSettings settings = database.settings();
        settings.server = wire.address();
        PhotoKeeper vault(std::make_unique<SqlPhotoShelf>(settings));
        const auto kept = vault.keep(samples::panel({800, 600}));
        QVERIFY(kept);
        wire.cut();
        QTRY_COMPARE(errorOf(vault.open(kept->id)), std::optional(EvidenceError::DatabaseAway));
        wire.heal();
        QTRY_VERIFY(vault.open(kept->id).has_value());
    }

    void shelf_refusesMoreThanItsBound_data() { addPlaces(); }
    void shelf_refusesMoreThanItsBound()
    {
        QFETCH(std::optional<StoreKind>, kind);
        Place place(kind);
        const auto shelf = place.shelf();
        const PhotoId id{QString(64, u'b')};
        QCOMPARE(
            shelf->write(id, {{PhotoForm::Full, QByteArray(mostShelvedBytes + 1, 'x')}}).error(),
            EvidenceError::TooManyBytes);
        QVERIFY(place.vault->list().value_or(std::vector<PhotoId>()).empty());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestPhotoVault)
#include "tst_photovault.moc"
