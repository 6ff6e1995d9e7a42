// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "support/testmain.h"

#include <QTest>
#include <QTranslator>

using namespace ramplight;
using namespace ramplight::test;

/// The wall in another language: words of QML and of C++.
class tst_LanguageScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }

    void wall_speaksTheLanguageThatIsInstalled()
    {
        QTranslator german;
        QVERIFY(german.load(QStringLiteral(RAMPLIGHT_GERMAN)));
        QVERIFY(QCoreApplication::installTranslator(&german));
        KioskBench bench(BenchHouse::Start::Demo);
        bench.show();
        QVERIFY(bench.untilSays(QStringLiteral("Wer sind Sie?")));
        QVERIFY(bench.untilSays(QStringLiteral("bereit zur Freigabe")));
        QVERIFY(!bench.says(QStringLiteral("ready for release")));
        QVERIFY(QCoreApplication::removeTranslator(&german));
    }
};

RAMPLIGHT_TEST(QGuiApplication, tst_LanguageScreen)
#include "tst_languagescreen.moc"
