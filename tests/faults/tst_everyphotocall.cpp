// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/house.h"
#include "cli/program.h"
#include "evidence/photostore.h"
#include "faults/aftermath.h"
#include "faults/amount.h"
#include "faults/diskfault.h"
#include "support/testmain.h"

#include <QDateTime>
#include <QDir>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

#include <algorithm>
#include <cerrno>
#include <tuple>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// What came of photos that were brought into a folder on a disk that fails once.
struct PhotoCourse
{
    int code = -1;
    QByteArray err;
    int calls = 0;
};

} // namespace

// Every single write, sync and renaming in the folder of photos fails in turn while photos are
// brought into it: what stands there under its name is whole, what is missing was told, and
// bringing them once more makes everything whole.
class TestEveryPhotoCall : public QObject
{
    Q_OBJECT

public:
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3000000"); }

private slots:
    void initTestCase()
    {
        QCOMPARE(makeDemo(home()), QString());
        m_verified = runProgram(home(), {QStringLiteral("verify")}).out;
        QVERIFY2(m_verified.contains(QStringLiteral("all is whole")), qPrintable(m_verified));
        const PhotoStore here(HousePaths(home()).photos());
        auto all = here.list();
        QVERIFY(all && all->size() > photos);
        all->resize(photos);
        m_photos = *all;
        PhotoStore stick(brought());
        for (const PhotoId& photo : m_photos)
            QVERIFY(stick.take(photo, here.open(photo).value()).value());
    }

    void failsOnce_losesNoPhoto_data()
    {
        QTest::addColumn<int>("code");
        QTest::newRow("disk fault") << EIO;
        QTest::newRow("no room") << ENOSPC;
    }

    void failsOnce_losesNoPhoto()
    {
        QFETCH(int, code);
        PhotoStore here(HousePaths(home()).photos());
        const Moment later{QDateTime::currentMSecsSinceEpoch() + 86'400'000};
        int failed = 0;
        int told = 0;
        for (int at = 1;; at += m_stride) {
            for (const PhotoId& photo : m_photos)
                std::ignore = here.remove(photo, later);
            const PhotoCourse course = bring(at, code);
            const auto where = QStringLiteral("call %1: ").arg(at).toUtf8();
            // It ends by itself.
            QVERIFY2(course.code >= 0, where + course.err);
            std::size_t missing = 0;
            const std::vector<PhotoId> present = here.list().value();
            for (const PhotoId& photo : m_photos) {
                if (std::ranges::find(present, photo) == present.end())
                    ++missing;
                else
                    QVERIFY2(here.open(photo), where + qPrintable(photo.text));
            }
            QVERIFY2(course.code != 0 || missing == 0, where + course.err);
            QVERIFY2(course.code == 0 || !course.err.trimmed().isEmpty(), where + "no words");
            told += course.code == 0 ? 0 : 1;
            if (course.calls < at)
                break; // it had ended before
            ++failed;
            const PhotoCourse again = bring(0, 0);
            QVERIFY2(again.code == 0, where + again.err);
            for (const PhotoId& photo : m_photos)
                QVERIFY2(here.open(photo), where + qPrintable(photo.text));
        }
        QVERIFY(failed > 15 / m_stride);
        QVERIFY(told > 0);
        qInfo("%d calls failed, each once; %d were told", failed, told);
        QCOMPARE(runProgram(home(), {QStringLiteral("verify")}).out, m_verified);
    }

private:
    static constexpr std::size_t photos = 4;

    [[nodiscard]] QString home() const { return m_folder.filePath(QStringLiteral("home")); }
    [[nodiscard]] QString brought() const { return m_folder.filePath(QStringLiteral("stick")); }

    /// at: the call that fails, from 1 on; 0: none.
    [[nodiscard]] PhotoCourse bring(int at, int code) const
    {
        const FailingDisk disk;
        QProcess program;
        program.setProcessEnvironment(disk.under(HousePaths(home()).photos(),
                                                 {.at = at, .code = code}, programEnvironment()));
        program.start(programPath(), {QStringLiteral("--home"), home(), QStringLiteral("photos"),
                                      QStringLiteral("take"), brought()});
        PhotoCourse course;
        if (program.waitForFinished(120'000) && program.exitStatus() == QProcess::NormalExit)
            course.code = program.exitCode();
        course.err = program.readAllStandardError();
        course.calls = disk.calls();
        return course;
    }

    QTemporaryDir m_folder;
    QString m_verified;
    std::vector<PhotoId> m_photos;
    const int m_stride = amount("STRIDE", 25);
};

RAMPLIGHT_TEST(QCoreApplication, TestEveryPhotoCall)
#include "tst_everyphotocall.moc"
