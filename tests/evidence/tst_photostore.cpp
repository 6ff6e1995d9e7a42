// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photodecoder.h"
#include "evidence/photostore.h"
#include "samples.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>
#include <limits>
#include <memory>

using namespace ramplight;

namespace {

void put(const QString& path, const QByteArray& bytes)
{
    QVERIFY(QDir().mkpath(QFileInfo(path).absolutePath()));
    QFile file(path);
    QVERIFY(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
    QCOMPARE(file.write(bytes), bytes.size());
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
        QCOMPARE(facts.st_mode & 07777, mode_t{0600});
        QVERIFY(QDir(m_root + QStringLiteral("/drafts")).isEmpty());
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

    void verify_namesWhatABreakLeft()
    {
        const PhotoId good = m_store->keep(samples::panel({80, 60}, 1))->id;
        put(m_root + QStringLiteral("/drafts/photo.abc123"), "half a pho");
        put(m_root + QStringLiteral("/notes.txt"), "not ours");
        put(m_root + QStringLiteral("/other/picture.jpg"), "not ours");
        const auto report = m_store->verify({good});
        QVERIFY(report);
        QVERIFY(report->missing.empty() && report->damaged.empty() && report->orphans.empty());
        QCOMPARE(report->unfinished, QStringList{QStringLiteral("photo.abc123")});
        QVERIFY(!report->isClean());
    }

    void remove_diskRefuses_leavesTheFullPicture()
    {
        if (::geteuid() == 0)
            QSKIP("Root may do everything.");
        const PhotoId id = m_store->keep(samples::panel({80, 60}, 1))->id;
        const QString folder = QFileInfo(m_store->pathOf(id)).absolutePath();
        QVERIFY(QFile::setPermissions(folder, QFile::ReadOwner | QFile::ExeOwner));
        const auto removed = m_store->remove(id, Moment{std::numeric_limits<qint64>::max()});
        QFile::setPermissions(folder, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
        QVERIFY(!removed);
        QVERIFY(m_store->open(id));
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

RAMPLIGHT_TEST(QCoreApplication, TestPhotoStore)
#include "tst_photostore.moc"
