// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/logging.h"
#include "managerhands.h"
#include "phone/phonewire.h"
#include "support/secrets.h"
#include "support/testmain.h"
#include "wheelwork.h"

#include "domain/eventcodec.h"

#include <QBuffer>
#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QImage>
#include <QLoggingCategory>
#include <QTemporaryDir>
#include <QTest>
#include <QUrl>

#include <spdlog/sinks/sink.h>
#include <spdlog/spdlog.h>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const auto wrongPin = QStringLiteral("593816");
const auto newPinOfNell = QStringLiteral("847205");
const auto badgeCode = QStringLiteral("QX7KE41ZB");

/// All that the program can say, into the workshop's own log, until the object goes.
class ChattyLog
{
public:
    explicit ChattyLog(const QString& folder)
        : m_messages(qInstallMessageHandler(nullptr))
        , m_logger(spdlog::default_logger())
    {
        startLogging(HousePaths(folder));
        const auto logger = spdlog::default_logger();
        // The tests' own output is not for it.
        logger->sinks().front()->set_level(spdlog::level::off);
        logger->set_level(spdlog::level::trace);
        logger->flush_on(spdlog::level::trace);
        QLoggingCategory::setFilterRules(
            QStringLiteral("*=true\nqt.*=false\nqt.network.*=true\nqt.sql.*=true"));
    }
    ChattyLog(const ChattyLog&) = delete;
    ChattyLog& operator=(const ChattyLog&) = delete;
    ~ChattyLog()
    {
        QLoggingCategory::setFilterRules({});
        spdlog::set_default_logger(m_logger);
        qInstallMessageHandler(m_messages);
    }

private:
    QtMessageHandler m_messages;
    std::shared_ptr<spdlog::logger> m_logger;
};

QByteArray bytesAt(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

/// The lines of the key file, each with the key behind its word.
QByteArray keyOf(const BenchHouse& house, const char* word)
{
    for (const QByteArray& line : bytesAt(house.folder(QStringLiteral("site.keys"))).split('\n'))
        if (line.startsWith(word))
            return line.mid(line.lastIndexOf(' ') + 1);
    return {};
}

bool setsNewPin(KioskBench& bench, const QString& name, const QString& pin)
{
    StaffView& view = *bench.shell().staff();
    NewPin& chosen = *view.newPin();
    return bench.tap(name) && bench.tap(QStringLiteral("New PIN")) && bench.enterPin(pin) &&
           bench.until([&] { return chosen.again(); }, QStringLiteral("once more")) &&
           bench.enterPin(pin) &&
           bench.until([&] { return chosen.isReady(); }, QStringLiteral("both the same")) &&
           bench.tap(QStringLiteral("Set this PIN")) && signAgain(bench) &&
           bench.until(
               [&] {
                   return view.ask()->what() == QLatin1StringView("pin") && !view.ask()->busy() &&
                          !view.ask()->refused();
               },
               QStringLiteral("the PIN is kept"));
}

/// The name's pad is shown.
bool wantsPin(KioskBench& bench, const QString& name)
{
    return bench.tap(QStringLiteral("Who are you?")) && bench.tap(name) &&
           bench.until([&] { return !bench.ofType("PinPad").empty(); }, QStringLiteral("the pad"));
}

bool isIn(KioskBench& bench, PersonId who)
{
    return bench.until([&] { return bench.shell().session()->person() == who; },
                       QStringLiteral("signed in"));
}

/// As after the lock time: nobody is signed in, and the wall is shown.
bool goesAway(KioskBench& bench)
{
    bench.shell().session()->signOut();
    emit bench.shell().session()->timedOut();
    return bench.untilSays(QStringLiteral("Who are you?"));
}

QByteArray somePicture()
{
    QImage image(640, 480, QImage::Format_RGB32);
    image.fill(Qt::darkGreen);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "JPG");
    return bytes;
}

} // namespace

/// A day at the wall with everything that somebody must not read later: what is written down of it
/// is looked through from end to end, at the chattiest that the log can be.
class tst_SecretsKept : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void whatIsLookedFor_wouldBeFound_data();
    void whatIsLookedFor_wouldBeFound();
    void dayAtTheWall_writesNoSecretDown();
};

void tst_SecretsKept::whatIsLookedFor_wouldBeFound_data()
{
    QTest::addColumn<QByteArray>("bytes");
    QTest::addColumn<QString>("found");
    const QByteArray pin = wrongPin.toLatin1();
    const auto row = [](const char* name, const QByteArray& bytes, const char* found) {
        QTest::newRow(name) << bytes << QString::fromLatin1(found);
    };
    row("plain", "tried " + pin + " in vain", "it, plain");
    row("behind a word", "the PIN" + pin + "s", "it, plain");
    row("in hex", "x" + pin.toHex() + "y", "it, in hex");
    row("in base64", pin.toBase64(), "it, in base64");
    row("in base64, one behind", ("a" + pin + "z").toBase64(), "it, in base64");
    row("in base64, two behind", ("ab" + pin + "yz").toBase64(), "it, in base64");
    row("two bytes each",
        QByteArray(reinterpret_cast<const char*>(wrongPin.utf16()), 2 * wrongPin.size()),
        "it, as UTF-16");
    row("hashed", QCryptographicHash::hash(pin, QCryptographicHash::Sha256).toHex(),
        "it, as a bare hash");
    row("in a time", "19" + pin + "00000", "");
    row("another one", "593817", "");
}

void tst_SecretsKept::whatIsLookedFor_wouldBeFound()
{
    QFETCH(const QByteArray, bytes);
    QFETCH(const QString, found);
    Secrets secrets;
    secrets.add(QStringLiteral("it"), wrongPin.toLatin1());
    QCOMPARE(secrets.in(bytes).join(QLatin1Char(';')), found);
    const QTemporaryDir folder;
    QVERIFY(QDir(folder.path()).mkpath(QStringLiteral("deep")));
    QFile file(folder.filePath(QStringLiteral("deep/.kept")));
    QVERIFY(file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size());
    file.close();
    QCOMPARE(secrets.below(folder.path()).join(QLatin1Char(';')),
             found.isEmpty() ? found : QStringLiteral("deep/.kept: ") + found);
    QCOMPARE(secrets.below(folder.path(), {QStringLiteral("deep/.kept")}), QStringList());
}

void tst_SecretsKept::dayAtTheWall_writesNoSecretDown()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const QString root = house.folder({});
    const ChattyLog chatty(root);
    const PersonId nell = house.person(QStringLiteral("Nell"));
    const Wheel wheel(house);
    bench.show();
    Session& session = *bench.shell().session();

    // A wrong PIN, then the right one; a manager gives Nell another one.
    QVERIFY(wantsPin(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.enterPin(wrongPin));
    QVERIFY(bench.until([&] { return !session.words().isEmpty(); }, QStringLiteral("wrong")));
    QVERIFY(bench.enterPin());
    QVERIFY(isIn(bench, house.person(QStringLiteral("Runa"))));
    QVERIFY(bench.tap(QStringLiteral("Staff and bays")));
    QVERIFY(setsNewPin(bench, QStringLiteral("Nell Quarrie"), newPinOfNell));
    QVERIFY(goesAway(bench));
    // A badge, given and shown; behind it her old PIN, then the new one.
    QVERIFY(house.giveBadge(nell, badgeCode));
    session.badge(badgeCode);
    QVERIFY(bench.until([&] { return session.askedId() == nell.value; }, QStringLiteral("Nell")));
    QVERIFY(bench.enterPin(BenchHouse::pin()));
    QVERIFY(bench.until([&] { return !session.words().isEmpty(); }, QStringLiteral("wrong")));
    QVERIFY(bench.enterPin(newPinOfNell));
    QVERIFY(isIn(bench, nell));
    QVERIFY(goesAway(bench));
    // A photo by telephone, and one by somebody who has not the code.
    QCOMPARE(bench.shell().phone()->serve({QStringLiteral("127.0.0.1"), 0}), QString());
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(afterPlace) && bench.tap(QStringLiteral("Use a phone")));
    QVERIFY(bench.until([&] { return bench.shell().phone()->isOpen(); }, QStringLiteral("a code")));
    const QUrl code(bench.shell().phone()->address());
    const auto port = static_cast<quint16>(code.port());
    QCOMPARE(ask(port, get(code.path())).status, 200);
    QCOMPARE(ask(port, post(code.path(), {somePicture()}, "X-Ramplight: one\r\n")).status, 200);
    QVERIFY(ask(port, post(code.path(), {"no photo"}, "X-Ramplight: one\r\n")).status != 200);
    QCOMPARE(ask(port, get(QStringLiteral("/") + QString(32, QLatin1Char('0')))).status, 404);
    // And all of it in a backup.
    auto named = house.backups().setFolder(house.folder(QStringLiteral("backups")));
    named.waitForFinished();
    QVERIFY(named.result());
    auto made = house.backups().backUp();
    made.waitForFinished();
    QVERIFY2(made.result().words.isEmpty(), qPrintable(made.result().words));
    spdlog::trace("the day is over");

    Secrets secrets;
    secrets.add(QStringLiteral("everybody's PIN"), BenchHouse::pin().toLatin1());
    secrets.add(QStringLiteral("a wrong PIN"), wrongPin.toLatin1());
    secrets.add(QStringLiteral("the new PIN"), newPinOfNell.toLatin1());
    const QByteArray token = code.path().mid(1).toLatin1();
    QCOMPARE(token.size(), 32);
    secrets.add(QStringLiteral("the phone's code"), token);
    secrets.add(QStringLiteral("the phone's code"), QByteArray::fromHex(token));
    for (const char* word : {"pepper", "digest"}) {
        const QByteArray key = keyOf(house, word);
        QCOMPARE(key.size(), 64);
        secrets.add(QLatin1StringView(word), key);
        secrets.add(QLatin1StringView(word), QByteArray::fromHex(key));
    }
    QCOMPARE(secrets.below(root, {QStringLiteral("site.keys")}), QStringList());
    // A badge names a person and signs nobody in: it stands among the badges, nowhere else.
    Secrets badge;
    badge.add(QStringLiteral("the badge"), badgeCode.toLatin1());
    for (const QString& where : badge.below(root))
        QVERIFY2(where.contains(QStringLiteral(".sqlite")), qPrintable(where));
    const auto history = house.desk().siteHistory().result();
    QVERIFY(history);
    for (const SiteEnvelope& entry : *history)
        QCOMPARE(badge.in(encode(entry.event).body), QStringList());

    // That it was looked at: names lie in the database and its backup, the log has its last line.
    Secrets names;
    names.add(QStringLiteral("a name"), "Nell Quarrie");
    const QStringList told = names.below(root);
    QVERIFY(!told.filter(QStringLiteral("workshop.sqlite")).isEmpty());
    QVERIFY(!told.filter(QStringLiteral("ledger.sqlite")).isEmpty());
    QCOMPARE(told.filter(QStringLiteral(".log")), QStringList());
    QVERIFY(bytesAt(house.folder(QStringLiteral("ramplight.log"))).contains("the day is over"));
    QVERIFY(!QFile::exists(house.folder(QStringLiteral("ramplight.1.log"))));
}

RAMPLIGHT_TEST(QGuiApplication, tst_SecretsKept)
#include "tst_secretskept.moc"
