// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/choices.h"
#include "kiosk/listbase.h"
#include "support/testmain.h"

#include <QAbstractItemModelTester>
#include <QSignalSpy>
#include <QTest>

namespace ramplight {

namespace {

std::vector<ChoiceRow> rowsOf(const QString& letters)
{
    std::vector<ChoiceRow> rows;
    for (const QChar letter : letters)
        rows.push_back({letter.toLower(), QString(letter), {}, false});
    return rows;
}

QString lettersOf(const Choices& choices)
{
    QString letters;
    for (const ChoiceRow& row : choices.rows())
        letters += row.title;
    return letters;
}

} // namespace

class TestListBase : public QObject
{
    Q_OBJECT

private slots:
    void newRows_changeOnlyWhatDiffers_data();
    void newRows_changeOnlyWhatDiffers();
    void data_outOfRange_isNothing();
    void choices_one_takesTheOthersPlace();
    void choices_several_turnRound();
    void choices_whatWasChosen_staysWhileItExists();
};

void TestListBase::newRows_changeOnlyWhatDiffers_data()
{
    // A capital is a changed title under the same key.
    QTest::addColumn<QString>("before");
    QTest::addColumn<QString>("after");
    QTest::addColumn<int>("inserted");
    QTest::addColumn<int>("removed");
    QTest::addColumn<int>("moved");
    QTest::addColumn<int>("changed");
    QTest::newRow("the same") << "abc"
                              << "abc" << 0 << 0 << 0 << 0;
    // All at once.
    QTest::newRow("first rows") << ""
                                << "abc" << 0 << 0 << 0 << 0;
    QTest::newRow("all gone") << "abc"
                              << "" << 0 << 3 << 0 << 0;
    QTest::newRow("one in the middle") << "ac"
                                       << "abc" << 1 << 0 << 0 << 0;
    QTest::newRow("one out of the middle") << "abc"
                                           << "ac" << 0 << 1 << 0 << 0;
    QTest::newRow("last becomes first") << "abcd"
                                        << "dabc" << 0 << 0 << 1 << 0;
    QTest::newRow("one changes") << "abc"
                                 << "aBc" << 0 << 0 << 0 << 1;
    QTest::newRow("moves and changes") << "abc"
                                       << "Cab" << 0 << 0 << 1 << 1;
    QTest::newRow("others altogether") << "abc"
                                       << "xyz" << 3 << 3 << 0 << 0;
    QTest::newRow("turned round") << "abcd"
                                  << "dcba" << 0 << 0 << 3 << 0;
}

void TestListBase::newRows_changeOnlyWhatDiffers()
{
    QFETCH(QString, before);
    QFETCH(QString, after);
    Choices choices(false);
    const QAbstractItemModelTester tester(&choices,
                                          QAbstractItemModelTester::FailureReportingMode::QtTest);
    choices.offer(rowsOf(before));
    QCOMPARE(lettersOf(choices), before);
    const QSignalSpy reset(&choices, &QAbstractItemModel::modelReset);
    const QSignalSpy inserted(&choices, &QAbstractItemModel::rowsInserted);
    const QSignalSpy removed(&choices, &QAbstractItemModel::rowsRemoved);
    const QSignalSpy moved(&choices, &QAbstractItemModel::rowsMoved);
    const QSignalSpy changed(&choices, &QAbstractItemModel::dataChanged);
    const QSignalSpy count(&choices, &ListBase::countChanged);
    choices.offer(rowsOf(after));
    QCOMPARE(lettersOf(choices), after);
    QCOMPARE(reset.count(), before.isEmpty() ? 1 : 0);
    QTEST(static_cast<int>(inserted.count()), "inserted");
    QTEST(static_cast<int>(removed.count()), "removed");
    QTEST(static_cast<int>(moved.count()), "moved");
    QTEST(static_cast<int>(changed.count()), "changed");
    QCOMPARE(count.count() > 0, before.size() != after.size());
}

void TestListBase::data_outOfRange_isNothing()
{
    Choices choices(false);
    choices.offer(rowsOf(QStringLiteral("a")));
    QVERIFY(!choices.data({}, Qt::UserRole + 1).isValid());
    QVERIFY(!choices.data(choices.index(0), Qt::DisplayRole).isValid());
    QVERIFY(!choices.data(choices.index(0), Qt::UserRole + 99).isValid());
    QCOMPARE(choices.rowCount(choices.index(0)), 0);
}

void TestListBase::choices_one_takesTheOthersPlace()
{
    Choices choices(false);
    choices.offer(rowsOf(QStringLiteral("abc")));
    choices.choose(QStringLiteral("a"));
    choices.choose(QStringLiteral("c"));
    QCOMPARE(choices.chosen(), QStringList{QStringLiteral("c")});
    QCOMPARE(choices.currentTitle(), QStringLiteral("c"));
}

void TestListBase::choices_several_turnRound()
{
    Choices choices(true);
    const QSignalSpy changed(&choices, &Choices::chosenChanged);
    choices.offer(rowsOf(QStringLiteral("abc")));
    choices.choose(QStringLiteral("c"));
    choices.choose(QStringLiteral("a"));
    QCOMPARE(choices.chosen(), (QStringList{QStringLiteral("a"), QStringLiteral("c")}));
    choices.choose(QStringLiteral("c"));
    QCOMPARE(choices.chosen(), QStringList{QStringLiteral("a")});
    QCOMPARE(changed.count(), 4);
}

void TestListBase::choices_whatWasChosen_staysWhileItExists()
{
    Choices choices(true);
    choices.offer(rowsOf(QStringLiteral("abc")));
    choices.setChosen({QStringLiteral("a"), QStringLiteral("b")});
    choices.offer(rowsOf(QStringLiteral("bcd")));
    QCOMPARE(choices.chosen(), QStringList{QStringLiteral("b")});
}

} // namespace ramplight

RAMPLIGHT_TEST(QCoreApplication, ramplight::TestListBase)
#include "tst_listbase.moc"
