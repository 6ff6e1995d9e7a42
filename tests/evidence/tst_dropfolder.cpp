// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/dropfolder.h"

#include "evidence/broughtfolders.h"
#include "evidence/photodecoder.h"
#include "samples.h"
#include "support/testmain.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

#include <memory>

using namespace ramplight;

namespace {

constexpr qint64 noonMs = 1'780'000'000'000;

} // namespace

class TestDropFolder : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        m_folder = std::make_unique<QTemporaryDir>();
        QVERIFY(m_folder->isValid());
    }

    void list_newestFirstByContentNotByName()
    {
        const QByteArray jpeg = samples::jpeg(samples::panel({8, 6}));
        put("old.jpg", jpeg, -3000);
        put("newest.dat", samples::png(samples::panel({8, 6})), 0);
        put("middle-b.JPG", jpeg, -1000);
        put("middle-a.jpeg", jpeg, -1000);
        put("not-a-photo.jpg", "just some words", 1000);
        put("empty.jpg", "", 1000);
        put("drawing.png", "<svg/>", 1000);
        put(".hidden.jpg", jpeg, 1000);
        QVERIFY(QDir(m_folder->path()).mkdir(QStringLiteral("folder.jpg")));
        QVERIFY(QFile::link(m_folder->filePath(QStringLiteral("old.jpg")),
                            m_folder->filePath(QStringLiteral("link.jpg"))));

        const auto found = DropFolder(m_folder->path()).list();
        QVERIFY(found);
        QStringList names;
        for (const DropCandidate& candidate : *found)
            names << candidate.name;
        QCOMPARE(names, (QStringList{QStringLiteral("newest.dat"), QStringLiteral("middle-a.jpeg"),
                                     QStringLiteral("middle-b.JPG"), QStringLiteral("old.jpg")}));
        QCOMPARE(found->back(),
                 (DropCandidate{m_folder->filePath(QStringLiteral("old.jpg")),
                                QStringLiteral("old.jpg"), jpeg.size(), Moment{noonMs - 3000}}));
    }

    void card_isLookedThroughWhereCamerasLeavePhotos()
    {
        const QDir folder(m_folder->path());
        const QString stick = folder.filePath(QStringLiteral("stick"));
        for (const char* name : {"DCIM/100RLIGHT", "DCIM/101RLIGHT", "Private"})
            QVERIFY(QDir().mkpath(stick + QLatin1Char('/') + QLatin1StringView(name)));
        QStringList folders = cameraFolders(stick);
        folders.sort();
        QCOMPARE(folders, (QStringList{stick, stick + QStringLiteral("/DCIM"),
                                       stick + QStringLiteral("/DCIM/100RLIGHT"),
                                       stick + QStringLiteral("/DCIM/101RLIGHT")}));
        QCOMPARE(cameraFolders(folder.path()), QStringList{folder.path()});
        // What is not there is no stick.
        const QString gone = folder.filePath(QStringLiteral("gone"));
        QCOMPARE(
            broughtFolders(folder.path(), {gone, stick}),
            (std::vector<BroughtFolder>{{folder.path(), {}}, {stick, QStringLiteral("stick")}}));
    }

    void list_isBounded()
    {
        const QByteArray jpeg = samples::jpeg(samples::panel({8, 6}));
        for (qint64 i = 0; i < 9; ++i)
            put(QByteArray::number(i) + ".jpg", jpeg, i * 1000);
        put("words.jpg", "just some words", 50'000); // takes no place
        const auto found = DropFolder(m_folder->path(), 3).list();
        QVERIFY(found);
        QCOMPARE(found->size(), std::size_t{3});
        QCOMPARE(found->front().name, QStringLiteral("8.jpg"));
        QCOMPARE(found->back().name, QStringLiteral("6.jpg"));
    }

    void list_emptyFolder() { QVERIFY(DropFolder(m_folder->path()).list()->empty()); }

    void list_missingFolder()
    {
        QCOMPARE(DropFolder(m_folder->filePath(QStringLiteral("no"))).list().error(),
                 EvidenceError::FolderMissing);
        QCOMPARE(DropFolder(QString()).list().error(), EvidenceError::FolderMissing);
        put("file", "a file", 0);
        QCOMPARE(DropFolder(m_folder->filePath(QStringLiteral("file"))).list().error(),
                 EvidenceError::FolderMissing);
    }

    void read_givesTheBytes()
    {
        const QByteArray jpeg = samples::jpeg(samples::panel({8, 6}));
        put("a.jpg", jpeg, 0);
        const DropCandidate candidate = DropFolder(m_folder->path()).list()->front();
        QCOMPARE(DropFolder::read(candidate, jpeg.size()).value(), jpeg);
        QCOMPARE(DropFolder::read(candidate, jpeg.size() - 1).error(), EvidenceError::TooManyBytes);
        QVERIFY(QFile::remove(candidate.path));
        QCOMPARE(DropFolder::read(candidate, 1000).error(), EvidenceError::NoSuchPhoto);
    }

    void stillBeingCopied_isListedAndSaysSo()
    {
        put("a.jpg", samples::jpeg(samples::panel({80, 60})).chopped(100), 0);
        const auto found = DropFolder(m_folder->path()).list();
        QCOMPARE(found->size(), std::size_t{1});
        const auto bytes = DropFolder::read(found->front(), PhotoLimits{}.mostBytes);
        QVERIFY(bytes);
        QCOMPARE(decodePhoto(*bytes).error(), EvidenceError::Truncated);
    }

private:
    void put(const QByteArray& name, const QByteArray& bytes, qint64 offsetMs)
    {
        QFile file(m_folder->filePath(QString::fromLatin1(name)));
        QVERIFY(file.open(QIODevice::ReadWrite | QIODevice::Truncate));
        QCOMPARE(file.write(bytes), bytes.size());
        QVERIFY(file.flush());
        QVERIFY(file.setFileTime(QDateTime::fromMSecsSinceEpoch(noonMs + offsetMs),
                                 QFileDevice::FileModificationTime));
    }

    std::unique_ptr<QTemporaryDir> m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestDropFolder)
#include "tst_dropfolder.moc"
