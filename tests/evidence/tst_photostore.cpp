// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photodecoder.h"
#include "evidence/photostore.h"
#include "samples.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>
#include <QThreadPool>

#include <sys/resource.h>
#include <sys/stat.h>

#include <atomic>
#include <csignal>
#include <memory>

using namespace ramplight;

namespace {

QByteArray contentOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

void put(const QString& path, const QByteArray& bytes)
{
    QVERIFY(QDir().mkpath(QFileInfo(path).absolutePath()));
    QFile file(path);
    QVERIFY(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
    QCOMPARE(file.write(bytes), bytes.size());
}

QString thumbnailBeside(const QString& path, int size)
{
    return path.chopped(4) + QStringLiteral(".%1.jpg").arg(size);
}

} // namespace

class TestPhotoStore : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        m_folder = std::make_unique<QTemporaryDir>();
        QVERIFY(m_folder->isValid());
        m_root = m_folder->filePath(QStringLiteral("photos"));
        m_store = std::make_unique<PhotoStore>(m_root);
    }

    void keep_thenOpen()
    {
        const QImage picture = samples::panel({800, 600});
        const auto kept = m_store->keep(picture);
        QVERIFY(kept);
        const auto bytes = m_store->open(kept->id);
        QVERIFY(bytes);
        QCOMPARE(*bytes, encodePhoto(picture).value());
        QCOMPARE(*kept, (StoredPhoto{photoIdOf(*bytes), QSize(800, 600), bytes->size()}));
        QCOMPARE(decodePhoto(*bytes)->size(), QSize(800, 600));
    }

    void photoIdOf_isSha256()
    {
        // FIPS 180-4, the example with one block.
        QCOMPARE(
            photoIdOf("abc").text,
            QStringLiteral("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"));
    }

    void keep_filesAreWhereTheyShouldBe()
    {
        const auto kept = m_store->keep(samples::panel({800, 600}));
        QVERIFY(kept);
        const QString id = kept->id.text;
        const QDir folder(m_root + u'/' + id.left(2));
        QCOMPARE(folder.entryList(QDir::Files, QDir::Name),
                 (QStringList{id.mid(2) + QStringLiteral(".160.jpg"),
                              id.mid(2) + QStringLiteral(".640.jpg"),
                              id.mid(2) + QStringLiteral(".jpg")}));
        QCOMPARE(m_store->pathOf(kept->id), folder.filePath(id.mid(2) + QStringLiteral(".jpg")));
        struct stat facts
        {
        };
        QCOMPARE(::stat(QFile::encodeName(m_store->pathOf(kept->id)).constData(), &facts), 0);
        QCOMPARE(facts.st_mode & 07777, mode_t{0640});
        QVERIFY(QDir(m_root + QStringLiteral("/drafts")).isEmpty());
    }

    void keep_twice_isKeptOnce()
    {
        const auto first = m_store->keep(samples::panel({80, 60}));
        const auto second = m_store->keep(samples::panel({80, 60}));
        const auto other = m_store->keep(samples::panel({80, 60}, 2));
        QVERIFY(first && second && other);
        QCOMPARE(*first, *second);
        QVERIFY(first->id != other->id);
        QVERIFY(m_store->verify({first->id, other->id})->isClean());
    }

    void keep_manyAtOnce()
    {
        std::atomic<int> kept = 0;
        QThreadPool pool;
        pool.setMaxThreadCount(6);
        for (int i = 0; i < 24; ++i)
            pool.start([this, &kept, i] {
                if (m_store->keep(samples::panel({120, 90}, i % 4)))
                    ++kept;
            });
        pool.waitForDone();
        QCOMPARE(kept.load(), 24);
        const auto report = m_store->verify({});
        QVERIFY(report);
        QCOMPARE(report->orphans.size(), std::size_t{4});
        QVERIFY(report->damaged.empty() && report->unfinished.isEmpty());
    }

    void keep_mendsADamagedOne()
    {
        const auto kept = m_store->keep(samples::panel({80, 60}));
        QVERIFY(kept);
        put(m_store->pathOf(kept->id), "scribble");
        QCOMPARE(m_store->open(kept->id).error(), EvidenceError::KeptDamaged);
        QVERIFY(m_store->keep(samples::panel({80, 60})));
        QVERIFY(m_store->open(kept->id));
    }

    void keep_refusals()
    {
        QCOMPARE(m_store->keep(QImage()).error(), EvidenceError::Empty);
        put(m_root, "a file where the folder should be");
        QCOMPARE(m_store->keep(samples::panel({8, 6})).error(), EvidenceError::CannotWrite);
        PhotoStore nowhere(m_folder->filePath(QStringLiteral("no/such/folder")));
        QCOMPARE(nowhere.keep(samples::panel({8, 6})).error(), EvidenceError::CannotWrite);
    }

    void keep_diskRefusesBytes_leavesNothing()
    {
        const QImage picture = samples::panel({800, 600});
        struct rlimit before
        {
        };
        QCOMPARE(::getrlimit(RLIMIT_FSIZE, &before), 0);
        const auto handler = std::signal(SIGXFSZ, SIG_IGN);
        // Room for the small thumbnail and not for the rest.
        const struct rlimit tight
        {
            .rlim_cur = 12'000, .rlim_max = before.rlim_max
        };
        QCOMPARE(::setrlimit(RLIMIT_FSIZE, &tight), 0);
        const auto kept = m_store->keep(picture);
        ::setrlimit(RLIMIT_FSIZE, &before);
        std::signal(SIGXFSZ, handler);
        QVERIFY(!kept);
        QCOMPARE(kept.error(), EvidenceError::CannotWrite);
        const PhotoId id = photoIdOf(encodePhoto(picture).value());
        QCOMPARE(m_store->open(id).error(), EvidenceError::NoSuchPhoto);
        QVERIFY(m_store->verify({})->isClean());
        QVERIFY(m_store->keep(picture)); // and it works when there is room again
        QVERIFY(m_store->open(id));
    }

    void open_whatIsNoId_data()
    {
        QTest::addColumn<QString>("id");
        QTest::newRow("nothing") << QString();
        QTest::newRow("way out of the folder")
            << QStringLiteral("../../../../etc/passwd").leftJustified(64, u'0');
        QTest::newRow("capitals") << QString(64, u'A');
        QTest::newRow("one short") << QString(63, u'a');
        QTest::newRow("one long") << QString(65, u'a');
        QTest::newRow("nobody's") << QString(64, u'a');
    }

    void open_whatIsNoId()
    {
        QFETCH(QString, id);
        QVERIFY(m_store->keep(samples::panel({8, 6})));
        QCOMPARE(m_store->open({id}).error(), EvidenceError::NoSuchPhoto);
        QCOMPARE(m_store->thumbnail({id}, ThumbnailSize::Card).error(), EvidenceError::NoSuchPhoto);
    }

    void thumbnail_sizes_data()
    {
        QTest::addColumn<QSize>("photo");
        QTest::addColumn<QSize>("card");
        QTest::addColumn<QSize>("panel");
        QTest::newRow("lying") << QSize(1280, 960) << QSize(160, 120) << QSize(640, 480);
        QTest::newRow("upright") << QSize(960, 1280) << QSize(120, 160) << QSize(480, 640);
        QTest::newRow("smaller than one") << QSize(400, 300) << QSize(160, 120) << QSize(400, 300);
        QTest::newRow("smaller than both") << QSize(40, 30) << QSize(40, 30) << QSize(40, 30);
        QTest::newRow("thin") << QSize(2000, 3) << QSize(160, 1) << QSize(640, 1);
    }

    void thumbnail_sizes()
    {
        QFETCH(QSize, photo);
        QFETCH(QSize, card);
        QFETCH(QSize, panel);
        const auto kept = m_store->keep(samples::panel(photo));
        QVERIFY(kept);
        QCOMPARE(decodePhoto(m_store->thumbnail(kept->id, ThumbnailSize::Card).value())->size(),
                 card);
        QCOMPARE(decodePhoto(m_store->thumbnail(kept->id, ThumbnailSize::Panel).value())->size(),
                 panel);
    }

    void thumbnail_goneOrBroken_isMadeAgain_data()
    {
        QTest::addColumn<QByteArray>("instead"); // null: removed
        QTest::newRow("gone") << QByteArray();
        QTest::newRow("empty") << QByteArray("");
        QTest::newRow("scribble") << QByteArray("scribble");
        QTest::newRow("cut") << samples::jpeg(samples::panel({160, 120})).chopped(20);
    }

    void thumbnail_goneOrBroken_isMadeAgain()
    {
        QFETCH(QByteArray, instead);
        const auto kept = m_store->keep(samples::panel({800, 600}));
        QVERIFY(kept);
        const QString path = thumbnailBeside(m_store->pathOf(kept->id), 160);
        const QByteArray before = contentOf(path);
        if (instead.isNull())
            QVERIFY(QFile::remove(path));
        else
            put(path, instead);
        const auto small = m_store->thumbnail(kept->id, ThumbnailSize::Card);
        QVERIFY(small);
        QCOMPARE(decodePhoto(*small)->size(), QSize(160, 120));
        QCOMPARE(contentOf(path), *small); // kept for the next time
        QVERIFY(!before.isEmpty());
    }

    void thumbnail_ofADamagedPhoto()
    {
        const auto kept = m_store->keep(samples::panel({800, 600}));
        QVERIFY(kept);
        const QString path = m_store->pathOf(kept->id);
        put(path, "scribble");
        QVERIFY(m_store->thumbnail(kept->id, ThumbnailSize::Card)); // it still has its own
        QVERIFY(QFile::remove(thumbnailBeside(path, 160)));
        QCOMPARE(m_store->thumbnail(kept->id, ThumbnailSize::Card).error(),
                 EvidenceError::KeptDamaged);
    }

    void verify_namesWhatIsWrong()
    {
        const PhotoId good = m_store->keep(samples::panel({80, 60}, 1))->id;
        const PhotoId bent = m_store->keep(samples::panel({80, 60}, 2))->id;
        const PhotoId cut = m_store->keep(samples::panel({80, 60}, 3))->id;
        const PhotoId orphan = m_store->keep(samples::panel({80, 60}, 4))->id;
        const PhotoId gone = m_store->keep(samples::panel({80, 60}, 5))->id;
        QVERIFY(m_store->verify({good, bent, cut, orphan, gone})->isClean());

        QByteArray bytes = contentOf(m_store->pathOf(bent));
        bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 1);
        put(m_store->pathOf(bent), bytes);
        put(m_store->pathOf(cut), {});
        QVERIFY(QFile::remove(m_store->pathOf(gone)));
        put(m_root + QStringLiteral("/drafts/photo.abc123"), "half a pho");
        put(m_root + QStringLiteral("/notes.txt"), "not ours");

        const auto report = m_store->verify({good, bent, cut, gone});
        QVERIFY(report);
        std::vector<PhotoId> damaged{bent, cut};
        std::sort(damaged.begin(), damaged.end());
        QCOMPARE(report->missing, std::vector{gone});
        QCOMPARE(report->damaged, damaged);
        QCOMPARE(report->orphans, std::vector{orphan});
        QCOMPARE(report->unfinished, QStringList{QStringLiteral("photo.abc123")});
        QVERIFY(!report->isClean());
    }

    void verify_withoutFolder()
    {
        QVERIFY(m_store->verify({})->isClean()); // nothing was ever kept
        QCOMPARE(m_store->verify({PhotoId{QString(64, u'a')}}).error(),
                 EvidenceError::FolderMissing);
    }

private:
    std::unique_ptr<QTemporaryDir> m_folder;
    QString m_root;
    std::unique_ptr<PhotoStore> m_store;
};

QTEST_GUILESS_MAIN(TestPhotoStore)
#include "tst_photostore.moc"
