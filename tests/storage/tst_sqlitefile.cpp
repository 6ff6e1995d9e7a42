// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"

#include <QFile>
#include <QProcess>
#include <QSqlQuery>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const CarId shared{QStringLiteral("shared")};

QByteArray contentOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

void write(const QString& path, const QByteArray& content)
{
    QFile file(path);
    QVERIFY(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
    QCOMPARE(file.write(content), content.size());
}

/// What another kiosk does: appends to one car so often, deciding again when it was too late.
int writeAsAnotherProgram(const QString& file, const QString& name, int appends)
{
    StoreSettings settings;
    settings.file = file;
    const auto store = Store::open(settings, keeperWith());
    if (!store)
        return 1;
    SqlLedger& ledger = (*store)->ledger();
    Hand hand(ledger);
    for (int i = 0; i < appends;) {
        Append append = hand.with(shared, {PromiseChanged{QDate(2031, 1, 1).addDays(i), name, {}}});
        append.command = {QStringLiteral("%1-%2").arg(name).arg(i)};
        const auto result = ledger.append(append);
        if (result)
            ++i;
        else if (result.error().kind != StoreErrorKind::Conflict)
            return 2;
    }
    return 0;
}

} // namespace

// What only a file can be: torn, foreign, shared by two programs.
class TestSqliteFile : public QObject
{
    Q_OBJECT

private slots:
    void connection_hasTheSettingsThatKeepASignOff_data()
    {
        QTest::addColumn<QString>("pragma");
        QTest::addColumn<QString>("value");
        QTest::newRow("write-ahead log") << "journal_mode"
                                         << "wal";
        QTest::newRow("on disk at once") << "synchronous"
                                         << "2";
        QTest::newRow("foreign keys") << "foreign_keys"
                                      << "1";
        QTest::newRow("waits for others") << "busy_timeout"
                                          << "5000";
        QTest::newRow("no trust in the schema") << "trusted_schema"
                                                << "0";
        QTest::newRow("our file") << "application_id"
                                  << "1380011344";
    }

    void connection_hasTheSettingsThatKeepASignOff()
    {
        QFETCH(QString, pragma);
        QFETCH(QString, value);
        TestDatabase database(StoreKind::Sqlite);
        const auto store = database.open();
        QSqlQuery query(store->ledger().connection().database());
        QVERIFY(query.exec("PRAGMA " + pragma));
        QVERIFY(query.next());
        QCOMPARE(query.value(0).toString(), value);
    }

    void file_thatIsNoneOfOurs_isRefusedAndKept_data()
    {
        QTest::addColumn<QByteArray>("content");
        QTest::addColumn<QString>("words");
        QTest::newRow("garbage") << QByteArray(5000, 'x') << "no database";
        QTest::newRow("a picture")
            << QByteArray("\x89PNG\r\n\x1a\n").repeated(400) << "no database";
        QTest::newRow("torn off") << ours().left(20 * 4096) << "damaged";
        QTest::newRow("another program's") << foreign() << "another program";
    }

    void file_thatIsNoneOfOurs_isRefusedAndKept()
    {
        QFETCH(QByteArray, content);
        QFETCH(QString, words);
        QTemporaryDir folder;
        StoreSettings settings;
        settings.file = folder.filePath("workshop.db");
        write(settings.file, content);
        const auto store = Store::open(settings, {});
        QVERIFY(!store);
        QCOMPARE(store.error().kind, StoreErrorKind::Damaged);
        QVERIFY2(store.error().words.contains(words), qPrintable(store.error().words));
        QVERIFY(store.error().words.contains(settings.file));
        QVERIFY(store.error().words.contains(QStringLiteral("left as it is")));
        QCOMPARE(contentOf(settings.file), content);
    }

    void file_tornInTheMiddle_isToldByVerify()
    {
        TestDatabase database(StoreKind::Sqlite);
        Workbench bench;
        tellStory(bench);
        {
            const auto store = database.open();
            QVERIFY(replay(bench.ledger.accepted(), store->ledger()));
        }
        QByteArray content = contentOf(database.settings().file);
        const qsizetype middle = content.size() / 2 / 4096 * 4096;
        content.replace(middle, 4096, QByteArray(4096, '\xff'));
        write(database.settings().file, content);
        const auto store = Store::open(database.settings(), keeperWith());
        if (!store) {
            QCOMPARE(store.error().kind, StoreErrorKind::Damaged);
            return;
        }
        QVERIFY(!Verifier((*store)->ledger()).run().isWhole());
    }

    void folder_missing_isTold()
    {
        StoreSettings settings;
        settings.file = QStringLiteral("/no/such/folder/workshop.db");
        const auto store = Store::open(settings, {});
        QVERIFY(!store);
        QCOMPARE(store.error().kind, StoreErrorKind::Unavailable);
        QVERIFY(store.error().words.contains(QStringLiteral("cannot be opened")));
    }

    void twoPrograms_onOneFile_loseNothing()
    {
        TestDatabase database(StoreKind::Sqlite);
        const auto store = database.open();
        Hand hand(store->ledger());
        QCOMPARE(outcome(store->ledger().append(hand.with(shared, {Hand::arrival("A1")}))),
                 QStringLiteral("ok"));
        constexpr int appends = 60;
        QProcess other;
        other.start(QCoreApplication::applicationFilePath(),
                    {"--write", database.settings().file, "other", QString::number(appends)});
        QVERIFY(other.waitForStarted());
        QCOMPARE(writeAsAnotherProgram(database.settings().file, "this", appends), 0);
        QVERIFY(other.waitForFinished());
        QCOMPARE(other.exitCode(), 0);
        QCOMPARE(store->ledger().car(shared).value().seq, 1 + 2 * appends);
        QVERIFY(store->ledger().isKnown(CommandId{"other-59"}).value());
        const VerifyReport report = Verifier(store->ledger()).run();
        for (const LedgerFault& fault : report.faults)
            QVERIFY2(!fault.words.contains("hash") && !fault.where.contains("read tables"),
                     qPrintable(fault.where + fault.words));
    }

private:
    /// A database of this program, closed.
    static QByteArray ours()
    {
        TestDatabase database(StoreKind::Sqlite);
        database.open().reset();
        return contentOf(database.settings().file);
    }

    /// A database with a table of somebody else's.
    static QByteArray foreign()
    {
        TestDatabase database(StoreKind::Sqlite);
        database.sql("CREATE TABLE songs (title TEXT)");
        return contentOf(database.settings().file);
    }
};

int main(int argc, char** argv)
{
    QCoreApplication application(argc, argv);
    const QStringList arguments = application.arguments();
    if (arguments.value(1) == QLatin1String("--write"))
        return writeAsAnotherProgram(arguments.value(2), arguments.value(3),
                                     arguments.value(4).toInt());
    TestSqliteFile test;
    return QTest::qExec(&test, argc, argv);
}

#include "tst_sqlitefile.moc"
