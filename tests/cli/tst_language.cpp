// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "program.h"

#include "cli/translation.h"
#include "support/testmain.h"

#include <QDir>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The program in another language than English.
class TestLanguage : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        m_home = m_folder.filePath(QStringLiteral("home"));
        const QString fault = makeDemo(m_home);
        QVERIFY2(fault.isEmpty(), qPrintable(fault));
    }

    void record_isInTheLanguageThatIsSet_andAgreesInAny()
    {
        setLanguage({});
        const QString english = record(QStringLiteral("en.html"));
        QVERIFY(english.contains(QStringLiteral("What was found, and what became of it")));
        QVERIFY(english.contains(QStringLiteral("lang=\"en\"")));

        takeTranslation();
        setLanguage(QStringLiteral("de"));
        const QString german = record(QStringLiteral("de.html"));
        QVERIFY(!german.contains(QStringLiteral("What was found, and what became of it")));
        QVERIFY(german.contains(QStringLiteral("Was gefunden wurde, und was daraus geworden ist")));
        QVERIFY(german.contains(QStringLiteral("lang=\"de\"")));
        // What is not translated stays as it is.
        QVERIFY(german.contains(QStringLiteral("Fingerprint")));

        const QString pdf = m_folder.filePath(QStringLiteral("de.pdf"));
        QCOMPARE(runProgram(m_home, {"record", "T-301", "--out", pdf}).code, 0);
        for (const QString& language : {QStringLiteral("de"), QString()}) {
            setLanguage(language);
            for (const QString& file : {pdf, m_folder.filePath(QStringLiteral("de.html"))}) {
                const Ran checked = runProgram(m_home, {"verify", "--record", file});
                QVERIFY2(checked.code == 0, qPrintable(checked.out + checked.err));
            }
        }
    }

    void languageThatIsNotThere_isSaid_andEnglishIsSpoken_data()
    {
        QTest::addColumn<QString>("language");
        QTest::addColumn<QString>("said");
        QTest::newRow("none of that name")
            << "fr"
            << "There is no translation for fr: ramplight_fr.qm was expected in";
        QTest::newRow("no name of a language")
            << "../de"
            << "There is no translation for ../de: ramplight_../de.qm";
        QTest::newRow("no translation") << "xx"
                                        << "ramplight_xx.qm holds no translation.";
    }

    void languageThatIsNotThere_isSaid_andEnglishIsSpoken()
    {
        QFETCH(QString, language);
        QFETCH(QString, said);
        takeTranslation();
        QVERIFY(write(HousePaths(m_home).translations() + "/ramplight_xx.qm", "no words at all"));
        setLanguage(language);
        const Ran ran = runProgram(m_home, {"verify"});
        QVERIFY2(ran.code == 0, qPrintable(ran.err));
        QVERIFY2(ran.out.contains(QStringLiteral("all is whole")), qPrintable(ran.out));
        QVERIFY2(ran.err.contains(QStringLiteral("screen/language in ")), qPrintable(ran.err));
        QVERIFY2(ran.err.contains(QStringLiteral("English is spoken instead")),
                 qPrintable(ran.err));
        QVERIFY2(ran.err.contains(said), qPrintable(ran.err));
    }

private:
    void setLanguage(const QString& language)
    {
        QSettings file(HousePaths(m_home).settings(), QSettings::IniFormat);
        if (language.isEmpty())
            file.remove(screenLanguageSetting);
        else
            file.setValue(screenLanguageSetting, language);
    }

    void takeTranslation()
    {
        const QString folder = HousePaths(m_home).translations();
        QVERIFY(QDir().mkpath(folder));
        const QString file = folder + QStringLiteral("/ramplight_de.qm");
        QVERIFY(QFile::exists(file) || QFile::copy(QStringLiteral(RAMPLIGHT_GERMAN), file));
    }

    /// As HTML; empty where none was made.
    [[nodiscard]] QString record(const QString& name)
    {
        const QString file = m_folder.filePath(name);
        const Ran made = runProgram(m_home, {"record", "T-301", "--out", file});
        return made.code == 0 ? QString::fromUtf8(bytesOf(file)) : made.err;
    }

    QTemporaryDir m_folder;
    QString m_home;
};

RAMPLIGHT_TEST(QCoreApplication, TestLanguage)
#include "tst_language.moc"
