// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/lastplace.h"
#include "support/testmain.h"

#include <QDateTime>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;

namespace {

const QString somewhere =
    QStringLiteral(R"({"screens":["Car"],"cars":["car-1"],"operations":[0]})");

/// As if it had been written so many seconds ago.
void makeOld(const QString& path, qint64 seconds)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly) ||
        !file.setFileTime(QDateTime::currentDateTime().addSecs(-seconds),
                          QFileDevice::FileModificationTime))
        qFatal("%s cannot be made older", qPrintable(path));
}

} // namespace

// Where the person at the wall was when the kiosk froze.
class TestLastPlace : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        m_folder = std::make_unique<QTemporaryDir>();
        m_path = m_folder->filePath(QStringLiteral("place"));
    }

    void kept_isLeft_andAnOrderlyEndTakesItAway()
    {
        {
            LastPlace place(m_path);
            place.keep(QStringLiteral("before"));
            place.keep(somewhere);
            QTRY_COMPARE(LastPlace::left(m_path), somewhere);
        }
        QVERIFY(!QFile::exists(m_path));
        QCOMPARE(LastPlace::left(m_path), QString());
    }

    void kioskThatDiedLongAgo_leavesNothing_data()
    {
        QTest::addColumn<qint64>("seconds");
        QTest::addColumn<QString>("expected");
        QTest::newRow("just now") << qint64{0} << somewhere;
        QTest::newRow("nine minutes") << qint64{540} << somewhere;
        QTest::newRow("eleven minutes") << qint64{660} << QString();
    }

    void kioskThatDiedLongAgo_leavesNothing()
    {
        QFETCH(qint64, seconds);
        QFETCH(QString, expected);
        QFile file(m_path);
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(somewhere.toUtf8());
        file.close();
        makeOld(m_path, seconds);
        QCOMPARE(LastPlace::left(m_path), expected);
    }

    // Somebody stays on one screen for an hour, and then the kiosk freezes.
    void longOnOneScreen_isNotGivenUp()
    {
        LastPlace place(m_path, std::chrono::milliseconds(20));
        place.keep(somewhere);
        QTRY_COMPARE(LastPlace::left(m_path), somewhere);
        makeOld(m_path, 3600);
        QTRY_COMPARE(LastPlace::left(m_path), somewhere);
    }

    void whereNobodyWentAnywhere_noFileIsMade()
    {
        const LastPlace place(m_path, std::chrono::milliseconds(5));
        QTest::qWait(60);
        QVERIFY(!QFile::exists(m_path));
    }

    void cannotBeWritten_isNotMissed()
    {
        LastPlace place(m_folder->filePath(QStringLiteral("no/such/folder/place")));
        place.keep(somewhere);
        QCOMPARE(LastPlace::left(m_path), QString());
    }

private:
    std::unique_ptr<QTemporaryDir> m_folder;
    QString m_path;
};

RAMPLIGHT_TEST(QCoreApplication, TestLastPlace)
#include "tst_lastplace.moc"
