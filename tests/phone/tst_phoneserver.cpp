// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/phonewire.h"

#include "evidence/photodecoder.h"
#include "evidence/samples.h"
#include "phone/phonepage.h"
#include "phone/phoneserver.h"

#include <QCryptographicHash>
#include <QSet>
#include <QTcpSocket>
#include <QTest>
#include <QTimer>

#include <atomic>
#include <vector>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const QByteArray byScript = "X-Ramplight: one\r\n";

/// A server on loopback whose photos come to the test's own thread, as they come to the kiosk's.
struct Scene
{
    explicit Scene(const PhoneLimits& limits = {})
        : server(
              [this](InvitationId id, const QByteArray& photo, const PhoneServer::Reply& reply) {
                  QMetaObject::invokeMethod(
                      &here, [this, id, photo, reply] { take(id, photo, reply); },
                      Qt::QueuedConnection);
              },
              limits, [this] { return nowMs.load(); })
    {
        const auto listening = server.listen(QStringLiteral("127.0.0.1"), 0);
        if (!listening)
            QTest::qFail(qPrintable(listening.error()), __FILE__, __LINE__);
    }

    void take(InvitationId id, const QByteArray& photo, const PhoneServer::Reply& reply)
    {
        ids.push_back(id);
        photos.append(photo);
        if (hold) {
            held.push_back(reply);
            return;
        }
        const auto image = decodePhoto(photo);
        reply(image ? PhotoAnswer(QString()) : PhotoAnswer(tl::unexpected(words(image.error()))));
    }

    PhoneInvitation invite()
    {
        return server.invite({QStringLiteral("after: the face"),
                              QStringLiteral("Refurbish <the> wheel"),
                              QStringLiteral("K-7 & more")});
    }
    [[nodiscard]] WireAnswer ask(const QByteArray& bytes) const
    {
        return ramplight::test::ask(server.port(), bytes);
    }
    [[nodiscard]] bool serves() { return ask(get(invite().path)).status == 200; }

    QObject here;
    std::atomic<qint64> nowMs = 1'000;
    bool hold = false;
    std::vector<PhoneServer::Reply> held;
    std::vector<InvitationId> ids;
    QByteArrayList photos;
    PhoneServer server;
};

QByteArray photo(int seed = 1)
{
    return samples::jpeg(samples::panel({320, 240}, seed));
}

} // namespace

/// The page for phones over real sockets: what it takes, what it refuses, and what nobody can do
/// to it from the workshop's network.
class tst_PhoneServer : public QObject
{
    Q_OBJECT

private slots:
    void page_saysWhatItIsFor_andLoadsNothing();
    void tokens_areLongAndNeverTheSame();
    void photos_arriveByteForByte_data();
    void photos_arriveByteForByte();
    void script_isAnsweredInWords();
    void strangers_findNothing_data();
    void strangers_findNothing();
    void nonsense_isNoHarm_data();
    void nonsense_isNoHarm();
    void code_endsAfterTenMinutes();
    void closedSheet_endsItsCodeOnly();
    void closedSheet_refusesWhatIsUnderWay();
    void badFile_isRefusedInWords_data();
    void badFile_isRefusedInWords();
    void size_isCapped_data();
    void size_isCapped();
    void photos_areCounted();
    void memory_isShared();
    void trickle_isCut_data();
    void trickle_isCut();
    void flood_leavesRoomAfterwards();
    void uploadsAtOnce_allGetAnAnswer();
    void stop_tellsWhoWaits_andLateAnswersAreNoHarm();
    void address_mustBeOneOfThisMachine_data();
    void address_mustBeOneOfThisMachine();
};

void tst_PhoneServer::page_saysWhatItIsFor_andLoadsNothing()
{
    Scene scene;
    const PhoneInvitation invitation = scene.invite();
    QCOMPARE(scene.server.addressOf(invitation),
             QStringLiteral("http://127.0.0.1:%1%2").arg(scene.server.port()).arg(invitation.path));
    const WireAnswer page = scene.ask(get(invitation.path));
    QCOMPARE(page.status, 200);
    QVERIFY(page.head.contains("\r\nContent-Type: text/html; charset=utf-8"));
    QVERIFY(page.head.contains("\r\nCache-Control: no-store"));
    QVERIFY(page.head.contains("\r\nReferrer-Policy: no-referrer"));
    QVERIFY(page.head.contains("\r\nX-Content-Type-Options: nosniff"));
    QVERIFY(page.head.contains("\r\nContent-Security-Policy: default-src 'none'; style-src "));
    for (const char* said : {"after: the face", "Refurbish &lt;the&gt; wheel", "K-7 &amp; more",
                             "without encryption", "Take photo", "capture=\"environment\""})
        QVERIFY2(page.body.contains(said), said);
    for (const char* outside : {"http", " src=", "url(", "@import", "{{", "<the>"})
        QVERIFY2(!page.body.contains(outside), outside);
    // What the policy lets run is what stands in the page.
    for (const auto& [from, to] : {std::pair{"<style>", "</style>"}, {"<script>", "</script>"}}) {
        const qsizetype begin = page.body.indexOf(from) + static_cast<qsizetype>(qstrlen(from));
        const QByteArray inside = page.body.mid(begin, page.body.indexOf(to) - begin);
        QVERIFY(inside.size() > 500);
        QVERIFY(page.head.contains(
            QCryptographicHash::hash(inside, QCryptographicHash::Sha256).toBase64()));
    }
    const WireAnswer head = scene.ask(get(invitation.path, "HEAD"));
    QCOMPARE(head.status, 200);
    QCOMPARE(head.body, QByteArray());
}

void tst_PhoneServer::tokens_areLongAndNeverTheSame()
{
    Scene scene;
    QSet<QString> seen;
    for (int i = 0; i < 200; ++i) {
        const QString path = scene.invite().path;
        QCOMPARE(path.size(), 33);
        QVERIFY(!seen.contains(path));
        seen.insert(path);
    }
}

void tst_PhoneServer::photos_arriveByteForByte_data()
{
    QTest::addColumn<QByteArrayList>("fields");
    QTest::addColumn<QByteArrayList>("photos");
    const QByteArray one = photo(1);
    const QByteArray two = samples::png(samples::panel({64, 64}, 2));
    // Looks like the edge between two parts, and is inside of one.
    const QByteArray tricky = one + "\r\n--edg\r\n--ed ge\r\n-\r\n\r\n";
    QTest::newRow("one") << QByteArrayList{one} << QByteArrayList{one};
    QTest::newRow("several") << QByteArrayList{one, two, one} << QByteArrayList{one, two, one};
    QTest::newRow("an empty field") << QByteArrayList{QByteArray(), two} << QByteArrayList{two};
    QTest::newRow("nothing chosen") << QByteArrayList{QByteArray()} << QByteArrayList{};
    QTest::newRow("an edge inside") << QByteArrayList{tricky, two} << QByteArrayList{tricky, two};
}

void tst_PhoneServer::photos_arriveByteForByte()
{
    QFETCH(const QByteArrayList, fields);
    QFETCH(const QByteArrayList, photos);
    Scene scene;
    const PhoneInvitation invitation = scene.invite();
    const WireAnswer page = scene.ask(post(invitation.path, fields));
    QCOMPARE(page.status, 200);
    QCOMPARE(scene.photos, photos);
    QVERIFY(std::ranges::all_of(scene.ids, [&](InvitationId id) { return id == invitation.id; }));
    QCOMPARE(page.body.count("Taken. It is at the kiosk."), photos.size());
    QVERIFY(page.body.contains("<form")); // for more
    // In as many pieces as a bad network makes of it.
    scene.photos.clear();
    const QByteArray request = post(invitation.path, fields);
    QTcpSocket* socket = dial(scene.server.port(), {});
    QTRY_COMPARE(socket->state(), QAbstractSocket::ConnectedState);
    for (qsizetype at = 0; at < request.size(); at += 611) {
        socket->write(request.mid(at, 611));
        socket->flush();
        QTest::qWait(0);
    }
    QCOMPARE(hearOut(socket).status, 200);
    QCOMPARE(scene.photos, photos);
}

void tst_PhoneServer::script_isAnsweredInWords()
{
    Scene scene;
    const QString path = scene.invite().path;
    const WireAnswer good = scene.ask(post(path, {photo()}, byScript));
    QCOMPARE(good.status, 200);
    QVERIFY(good.head.contains("\r\nContent-Type: text/plain"));
    QCOMPARE(good.body, QByteArray("Taken. It is at the kiosk."));
    scene.hold = true;
    QTcpSocket* socket = dial(scene.server.port(), post(path, {photo()}, byScript));
    QTRY_COMPARE(scene.held.size(), std::size_t{1});
    scene.held.front()(QStringLiteral("It is too dark."));
    scene.held.front()(tl::unexpected(QStringLiteral("a second answer counts for nothing")));
    QVERIFY(hearOut(socket).body.endsWith("look at it again: It is too dark."));
    const WireAnswer none = scene.ask(post(path, {QByteArray()}, byScript));
    QCOMPARE(none.status, 422);
}

void tst_PhoneServer::strangers_findNothing_data()
{
    QTest::addColumn<QByteArray>("request"); // TOKEN stands for an open code
    QTest::addColumn<int>("status");
    const auto path = [](const char* name, const char* text) {
        QTest::newRow(name) << QByteArray("GET ") + text + " HTTP/1.1\r\nHost: x\r\n\r\n" << 404;
    };
    path("root", "/");
    path("icon", "/favicon.ico");
    path("zeros", "/00000000000000000000000000000000");
    path("no digits", "/zzzzzzzzzzzzzzzzzzzzzzzzzzzzzzzz");
    path("behind", "/TOKEN/");
    path("before", "//TOKEN");
    path("one more digit", "/TOKEN0");
    path("up and down", "/TOKEN/../TOKEN");
    path("up", "/../../../../etc/passwd");
    path("up, escaped", "/%2e%2e%2f%2e%2e%2fetc%2fpasswd");
    path("a zero byte", "/TOKEN%00");
    path("a long one", QByteArray("/").append(QByteArray(4000, 'a')).constData());
    QTest::newRow("post to nobody")
        << post(QStringLiteral("/00000000000000000000000000000000"), {photo()}) << 404;
    for (const char* method : {"PUT", "DELETE", "OPTIONS", "PATCH", "TRACE", "CONNECT", "BREW"})
        QTest::newRow(method) << QByteArray(method) + " /TOKEN HTTP/1.1\r\nHost: x\r\n\r\n" << 405;
    QTest::newRow("json") << QByteArray("POST /TOKEN HTTP/1.1\r\nHost: x\r\nContent-Type: "
                                        "application/json\r\nContent-Length: 2\r\n\r\n{}")
                          << 415;
    QTest::newRow("no kind")
        << QByteArray("POST /TOKEN HTTP/1.1\r\nHost: x\r\nContent-Length: 2\r\n\r\n{}") << 415;
}

void tst_PhoneServer::strangers_findNothing()
{
    QFETCH(QByteArray, request);
    Scene scene;
    const QByteArray token = scene.invite().path.mid(1).toLatin1();
    const WireAnswer answer = scene.ask(request.replace("TOKEN", token));
    QTEST(answer.status, "status");
    QVERIFY(!answer.body.contains("K-7"));
    QVERIFY(!answer.body.contains(token));
    QVERIFY(scene.photos.isEmpty());
}

void tst_PhoneServer::nonsense_isNoHarm_data()
{
    QTest::addColumn<QByteArray>("request");
    QTest::newRow("words") << QByteArray("hello\r\n\r\n");
    QTest::newRow("zeros") << QByteArray(3000, '\0') + "\r\n\r\n";
    QTest::newRow("another protocol")
        << QByteArray("\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03", 11) + QByteArray("\r\n\r\n");
    QTest::newRow("no host") << QByteArray("GET /TOKEN HTTP/1.1\r\n\r\n");
    QTest::newRow("headers without end")
        << QByteArray("GET /TOKEN HTTP/1.1\r\nHost: x\r\nA: ") + QByteArray(200'000, 'a');
    QTest::newRow("many headers") << QByteArray("GET /TOKEN HTTP/1.1\r\nHost: x\r\n") +
                                         QByteArray("A: b\r\n").repeated(20'000) + "\r\n";
    QTest::newRow("a length below nothing")
        << QByteArray("POST /TOKEN HTTP/1.1\r\nHost: x\r\nContent-Type: multipart/form-data; "
                      "boundary=e\r\nContent-Length: -5\r\n\r\n");
    QTest::newRow("a length beyond counting")
        << QByteArray("POST /TOKEN HTTP/1.1\r\nHost: x\r\nContent-Type: multipart/form-data; "
                      "boundary=e\r\nContent-Length: 99999999999999999999999\r\n\r\n");
    QTest::newRow("a chunk of no size")
        << QByteArray("POST /TOKEN HTTP/1.1\r\nHost: x\r\nContent-Type: multipart/form-data; "
                      "boundary=e\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\nabc\r\n0\r\n\r\n");
    QTest::newRow("no boundary") << QByteArray(
        "POST /TOKEN HTTP/1.1\r\nHost: x\r\nContent-Type: multipart/form-data\r\n"
        "Content-Length: 4\r\n\r\nabcd");
    QTest::newRow("no parts")
        << QByteArray("POST /TOKEN HTTP/1.1\r\nHost: x\r\nContent-Type: multipart/form-data; "
                      "boundary=e\r\nContent-Length: 40\r\n\r\n") +
               QByteArray(40, '-');
}

void tst_PhoneServer::nonsense_isNoHarm()
{
    QFETCH(QByteArray, request);
    PhoneLimits limits;
    limits.headMs = 300; // what never ends its headers is cut soon
    Scene scene(limits);
    const WireAnswer answer =
        scene.ask(request.replace("TOKEN", scene.invite().path.mid(1).toLatin1()));
    // A form without a photo is one; everything else is refused or dropped.
    QVERIFY2(answer.status == 0 || answer.status >= 400 ||
                 (answer.status == 200 && !answer.body.contains("Taken.")),
             answer.head.constData());
    QVERIFY(scene.photos.isEmpty());
    QVERIFY(scene.serves());
}

void tst_PhoneServer::code_endsAfterTenMinutes()
{
    Scene scene;
    const PhoneInvitation invitation = scene.invite();
    QCOMPARE(invitation.endsMs, 601'000);
    scene.nowMs = 600'999;
    QCOMPARE(scene.ask(get(invitation.path)).status, 200);
    QCOMPARE(scene.ask(post(invitation.path, {photo()})).status, 200);
    scene.nowMs = 601'000;
    QCOMPARE(scene.ask(get(invitation.path)).status, 404);
    QCOMPARE(scene.ask(post(invitation.path, {photo()})).status, 404);
    QCOMPARE(scene.photos.size(), 1);
}

void tst_PhoneServer::closedSheet_endsItsCodeOnly()
{
    Scene scene;
    const PhoneInvitation first = scene.invite();
    const PhoneInvitation second = scene.invite();
    scene.server.end(first.id);
    QCOMPARE(scene.ask(get(first.path)).status, 404);
    QCOMPARE(scene.ask(post(first.path, {photo()})).status, 404);
    QCOMPARE(scene.ask(get(second.path)).status, 200);
    QVERIFY(scene.photos.isEmpty());
}

void tst_PhoneServer::closedSheet_refusesWhatIsUnderWay()
{
    Scene scene;
    const PhoneInvitation invitation = scene.invite();
    const QByteArray request = post(invitation.path, {photo()}, byScript);
    QTcpSocket* socket = dial(scene.server.port(), request.left(request.size() - 20));
    QTRY_COMPARE(socket->state(), QAbstractSocket::ConnectedState);
    QTRY_COMPARE(socket->bytesToWrite(), 0);
    // Another connection goes through the same thread: it has read the first one by now.
    QVERIFY(scene.serves());
    scene.server.end(invitation.id);
    socket->write(request.right(20));
    const WireAnswer answer = hearOut(socket);
    QVERIFY(answer.status == 422 || answer.status == 404);
    QVERIFY(scene.photos.isEmpty());
}

void tst_PhoneServer::badFile_isRefusedInWords_data()
{
    QTest::addColumn<QByteArray>("file");
    QTest::addColumn<EvidenceError>("error");
    QTest::newRow("a page") << QByteArray("<html><script>alert(1)</script></html>")
                            << EvidenceError::NotAPhoto;
    QTest::newRow("a drawing") << QByteArray("<svg xmlns='http://www.w3.org/2000/svg'></svg>")
                               << EvidenceError::Drawing;
    QTest::newRow("a bomb") << samples::pngHeader(60'000, 60'000) +
                                   samples::chunk("IDAT", QByteArray(64, '\0')) +
                                   samples::chunk("IEND", {})
                            << EvidenceError::TooManyPixels;
    QTest::newRow("disguised") << QByteArray("\xFF\xD8\xFFMZ this is a program, not a picture")
                               << EvidenceError::Disguised;
    QTest::newRow("cut") << photo().left(2000) << EvidenceError::Truncated;
    QTest::newRow("empty") << QByteArray("") << EvidenceError::Empty;
}

void tst_PhoneServer::badFile_isRefusedInWords()
{
    QFETCH(const QByteArray, file);
    QFETCH(const EvidenceError, error);
    Scene scene;
    const QString path = scene.invite().path;
    const WireAnswer answer = scene.ask(post(path, {file, photo()}));
    QCOMPARE(answer.status, 200);
    QVERIFY2(answer.body.contains(words(error).toHtmlEscaped().toUtf8()), answer.body.constData());
    QCOMPARE(answer.body.count("Taken."), 1); // the good one beside it
    QCOMPARE(scene.ask(post(path, {file}, byScript)).body, words(error).toUtf8());
}

void tst_PhoneServer::size_isCapped_data()
{
    QTest::addColumn<QByteArray>("request");
    QTest::addColumn<int>("status");
    QTest::addColumn<int>("photos");
    const QString path = QStringLiteral("/TOKEN");
    QTest::newRow("as large as it may be") << post(path, {QByteArray(50'000, 'x')}) << 200 << 1;
    QTest::newRow("one byte more") << post(path, {QByteArray(50'001, 'x')}) << 200 << 0;
    QTest::newRow("the one beside it")
        << post(path, {QByteArray(50'001, 'x'), photo()}) << 200 << 1;
    QTest::newRow("a form that says so")
        << QByteArray("POST /TOKEN HTTP/1.1\r\nHost: x\r\nContent-Type: multipart/form-data; "
                      "boundary=edge\r\nContent-Length: 120001\r\n\r\n")
        << 413 << 0;
    // Does not say how long it is, and does not end.
    QByteArray chunked = "POST /TOKEN HTTP/1.1\r\nHost: x\r\nContent-Type: multipart/form-data; "
                         "boundary=edge\r\nTransfer-Encoding: chunked\r\n\r\n";
    for (int i = 0; i < 40; ++i)
        chunked += "1000\r\n" + QByteArray(0x1000, 'y') + "\r\n";
    QTest::newRow("a form that does not say") << chunked << 0 << 0;
}

void tst_PhoneServer::size_isCapped()
{
    QFETCH(QByteArray, request);
    PhoneLimits limits;
    limits.photoBytes = 50'000;
    limits.formBytes = 120'000;
    Scene scene(limits);
    const QByteArray token = scene.invite().path.mid(1).toLatin1();
    const WireAnswer answer = scene.ask(request.replace("/TOKEN", '/' + token));
    QTEST(answer.status, "status");
    QTEST(int(scene.photos.size()), "photos");
    QVERIFY(scene.serves());
}

void tst_PhoneServer::photos_areCounted()
{
    PhoneLimits limits;
    limits.photosPerForm = 2;
    limits.photosPerInvitation = 3;
    Scene scene(limits);
    const QString path = scene.invite().path;
    const WireAnswer three = scene.ask(post(path, {photo(1), photo(2), photo(3), photo(4)}));
    QCOMPARE(scene.photos.size(), 2);
    QVERIFY(three.body.contains(phonewords::tooMany().toHtmlEscaped().toUtf8()));
    QCOMPARE(scene.ask(post(path, {photo(3)}, byScript)).status, 200);
    QCOMPARE(scene.ask(post(path, {photo(4)}, byScript)).body, phonewords::ended().toUtf8());
    QCOMPARE(scene.photos.size(), 3);
}

void tst_PhoneServer::memory_isShared()
{
    PhoneLimits limits;
    limits.heldBytes = 60'000;
    Scene scene(limits);
    scene.hold = true;
    const QString path = scene.invite().path;
    const QByteArray large(40'000, 'x');
    QTcpSocket* first = dial(scene.server.port(), post(path, {large}, byScript));
    QTRY_COMPARE(scene.held.size(), std::size_t{1});
    // The first is not kept yet: there is no room for a second.
    QCOMPARE(scene.ask(post(path, {large}, byScript)).body, phonewords::busy().toUtf8());
    scene.held.front()(QString());
    QCOMPARE(hearOut(first).status, 200);
    scene.held.clear();
    scene.hold = false;
    QCOMPARE(scene.ask(post(path, {large}, byScript)).body,
             words(EvidenceError::NotAPhoto).toUtf8());
}

void tst_PhoneServer::trickle_isCut_data()
{
    QTest::addColumn<QByteArray>("begin");
    QTest::addColumn<QByteArray>("drop");
    QTest::newRow("headers") << QByteArray("GET /TOKEN HTTP/1.1\r\nHost: x\r\n")
                             << QByteArray("a: b\r\n");
    QTest::newRow("a body") << post(QStringLiteral("/TOKEN"), {photo()}).left(400)
                            << QByteArray("x");
    QTest::newRow("silence") << QByteArray() << QByteArray();
}

void tst_PhoneServer::trickle_isCut()
{
    QFETCH(QByteArray, begin);
    QFETCH(const QByteArray, drop);
    PhoneLimits limits;
    limits.headMs = 300;
    limits.wholeMs = 600;
    Scene scene(limits);
    QTcpSocket* socket =
        dial(scene.server.port(), begin.replace("TOKEN", scene.invite().path.mid(1).toLatin1()));
    // Something comes all the time, so that no wait for silence would end it.
    QTimer drip;
    QObject::connect(&drip, &QTimer::timeout, socket, [socket, drop] { socket->write(drop); });
    drip.start(20);
    const WireAnswer answer = hearOut(socket);
    drip.stop();
    QCOMPARE(answer.status, 0);
    QVERIFY(scene.photos.isEmpty());
    QVERIFY(scene.serves());
}

void tst_PhoneServer::flood_leavesRoomAfterwards()
{
    PhoneLimits limits;
    limits.headMs = 100;
    Scene scene(limits);
    std::vector<std::unique_ptr<QTcpSocket>> crowd;
    for (int i = 0; i < 60; ++i) {
        crowd.emplace_back(dial(scene.server.port(), "GET /"));
        QTest::qWait(0);
    }
    for (const auto& socket : crowd)
        QTRY_COMPARE_WITH_TIMEOUT(socket->state(), QAbstractSocket::UnconnectedState, 20'000);
    QVERIFY(scene.serves());
}

void tst_PhoneServer::uploadsAtOnce_allGetAnAnswer()
{
    PhoneLimits limits;
    limits.connections = 8;
    limits.connectionsPerAddress = 8;
    Scene scene(limits);
    const QString path = scene.invite().path;
    std::vector<QTcpSocket*> phones;
    for (int i = 0; i < 8; ++i)
        phones.push_back(dial(scene.server.port(), post(path, {photo(i)}, byScript)));
    for (QTcpSocket* phone : phones)
        QCOMPARE(hearOut(phone).status, 200);
    QCOMPARE(scene.photos.size(), 8);
    // More than there is room for: each is taken or closed, and none is taken by half.
    scene.photos.clear();
    phones.clear();
    for (int i = 0; i < 40; ++i)
        phones.push_back(dial(scene.server.port(), post(path, {photo(i)}, byScript)));
    qsizetype taken = 0;
    for (QTcpSocket* phone : phones) {
        const int status = hearOut(phone).status;
        QVERIFY2(status == 200 || status == 0, qPrintable(QString::number(status)));
        taken += status == 200 ? 1 : 0;
    }
    QVERIFY(taken > 0);
    QCOMPARE(scene.photos.size(), taken);
    QVERIFY(scene.serves());
}

void tst_PhoneServer::stop_tellsWhoWaits_andLateAnswersAreNoHarm()
{
    Scene scene;
    scene.hold = true;
    QTcpSocket* socket = dial(scene.server.port(), post(scene.invite().path, {photo()}, byScript));
    QTRY_COMPARE(scene.held.size(), std::size_t{1});
    scene.server.stop();
    QVERIFY(!scene.server.isListening());
    QCOMPARE(hearOut(socket).body, phonewords::closing().toUtf8());
    scene.held.front()(QString());
    // It may serve again, elsewhere.
    QVERIFY(scene.server.listen(QStringLiteral("127.0.0.1"), 0));
    QVERIFY(scene.serves());
}

void tst_PhoneServer::address_mustBeOneOfThisMachine_data()
{
    QTest::addColumn<QString>("address");
    for (const char* address :
         {"", "0.0.0.0", "255.255.255.255", "224.0.0.1", "203.0.113.9", "workshop", "::1", "1.2.3"})
        QTest::newRow(address) << QString::fromLatin1(address);
}

void tst_PhoneServer::address_mustBeOneOfThisMachine()
{
    QFETCH(const QString, address);
    Scene scene;
    const auto refused = scene.server.listen(address, 0);
    QVERIFY(!refused);
    QVERIFY(refused.error().contains(address));
    QVERIFY(!scene.server.isListening());
    QVERIFY(!ownAddresses().contains(QStringLiteral("127.0.0.1")));
}

QTEST_GUILESS_MAIN(tst_PhoneServer)
#include "tst_phoneserver.moc"
