// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// A house whose people leave more undone than fits above them: all of it can be read.
class tst_StaffWarnings : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void manyOfThem_areAllToBeRead_data() { sizes(); }
    void manyOfThem_areAllToBeRead();
};

void tst_StaffWarnings::manyOfThem_areAllToBeRead()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId odo = house.person(QStringLiteral("Odo"));
    for (const char* name : {"Runa", "Ivo", "Tamsin", "Bram", "Nell", "Petra"}) {
        const Person person = house.site().people.at(house.person(QString::fromLatin1(name)));
        house.must(odo, site::ChangePerson{person.id, person.skills, person.rights, false});
    }
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")) &&
            bench.signIn(QStringLiteral("Odo Farlane")));
    QVERIFY(bench.tap(QStringLiteral("Staff and bays")));
    const QStringList all = bench.shell().staff()->warnings();
    QVERIFY(all.size() > 3);
    QVERIFY(bench.untilSays(all.at(2)));
    QVERIFY(!bench.says(all.at(3)));
    bench.shoot(QStringLiteral("staff-warnings"));
    QVERIFY(bench.tap(QStringLiteral("All %1").arg(all.size())));
    for (const QString& warning : all)
        QVERIFY2(bench.untilSays(warning), qPrintable(warning));
    bench.shoot(QStringLiteral("staff-warnings-all"));
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QVERIFY(bench.untilGone(all.at(3)));
}

RAMPLIGHT_TEST(QGuiApplication, tst_StaffWarnings)
#include "tst_staffwarnings.moc"
