// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "program.h"
#include "support/testmain.h"

#include <QProcess>
#include <QTest>

using namespace ramplight::test;

// The two commands of the README, as far as they neither install nor build.
class TestScripts : public QObject
{
    Q_OBJECT

private slots:
    void options_areToldOrRefused_data()
    {
        QTest::addColumn<QString>("script");
        QTest::addColumn<QStringList>("arguments");
        QTest::addColumn<int>("code");
        QTest::addColumn<QString>("out");
        QTest::addColumn<QString>("err");
        QTest::newRow("app/run --help")
            << "app/run" << QStringList{"--help"} << 0 << "app/run --build            only build"
            << "";
        QTest::newRow("app/run, unknown") << "app/run" << QStringList{"--faster"} << 64 << ""
                                          << "app/run: unknown option --faster";
        QTest::newRow("app/run, unknown after a known one")
            << "app/run" << QStringList{"--build", "kiosk"} << 64 << ""
            << "what is for the program comes after --";
        QTest::newRow("tests/run --help")
            << "tests/run" << QStringList{"--help"} << 0 << "tests/run --long         those, too"
            << "";
        QTest::newRow("tests/run, unknown") << "tests/run" << QStringList{"--fast"} << 64 << ""
                                            << "tests/run: unknown option --fast";
    }

    void options_areToldOrRefused()
    {
        QFETCH(QString, script);
        QFETCH(QStringList, arguments);
        QFETCH(int, code);
        QFETCH(QString, out);
        QFETCH(QString, err);
        QProcess run;
        run.setWorkingDirectory(QStringLiteral("/")); // from any folder
        run.start(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/") + script, arguments);
        QVERIFY(run.waitForFinished(60'000));
        QCOMPARE(run.exitStatus(), QProcess::NormalExit);
        QCOMPARE(run.exitCode(), code);
        const QString said = QString::fromUtf8(run.readAllStandardOutput());
        const QString faults = QString::fromUtf8(run.readAllStandardError());
        QVERIFY2(said.contains(out), qPrintable(said));
        QVERIFY2(faults.contains(err), qPrintable(faults));
        QCOMPARE(faults.isEmpty(), code == 0);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestScripts)
#include "tst_scripts.moc"
