// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/phonescene.h"

#include <QTcpSocket>
#include <QTimer>

#include <memory>

using namespace ramplight;
using namespace ramplight::test;

/// What nobody can do to the page for phones from the workshop's network.
class tst_PhoneAttacks : public QObject
{
    Q_OBJECT

private slots:
    void strangers_findNothing_data();
    void strangers_findNothing();
    void nonsense_isNoHarm_data();
    void nonsense_isNoHarm();
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
};

void tst_PhoneAttacks::strangers_findNothing_data()
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

void tst_PhoneAttacks::strangers_findNothing()
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

void tst_PhoneAttacks::nonsense_isNoHarm_data()
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
    QTest::newRow("fields of a page, no files")
        << QByteArray("POST /TOKEN HTTP/1.1\r\nHost: x\r\nContent-Type: "
                      "application/x-www-form-urlencoded\r\nContent-Length: 9\r\n\r\nphoto=abc");
    QTest::newRow("no parts")
        << QByteArray("POST /TOKEN HTTP/1.1\r\nHost: x\r\nContent-Type: multipart/form-data; "
                      "boundary=e\r\nContent-Length: 40\r\n\r\n") +
               QByteArray(40, '-');
}

void tst_PhoneAttacks::nonsense_isNoHarm()
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

void tst_PhoneAttacks::closedSheet_refusesWhatIsUnderWay()
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

void tst_PhoneAttacks::badFile_isRefusedInWords_data()
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

void tst_PhoneAttacks::badFile_isRefusedInWords()
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

void tst_PhoneAttacks::size_isCapped_data()
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

void tst_PhoneAttacks::size_isCapped()
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

void tst_PhoneAttacks::photos_areCounted()
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

void tst_PhoneAttacks::memory_isShared()
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

void tst_PhoneAttacks::trickle_isCut_data()
{
    QTest::addColumn<QByteArray>("begin");
    QTest::addColumn<QByteArray>("drop");
    QTest::newRow("headers") << QByteArray("GET /TOKEN HTTP/1.1\r\nHost: x\r\n")
                             << QByteArray("a: b\r\n");
    QTest::newRow("a body") << post(QStringLiteral("/TOKEN"), {photo()}).left(400)
                            << QByteArray("x");
    QTest::newRow("silence") << QByteArray() << QByteArray();
}

void tst_PhoneAttacks::trickle_isCut()
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

void tst_PhoneAttacks::flood_leavesRoomAfterwards()
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

void tst_PhoneAttacks::uploadsAtOnce_allGetAnAnswer()
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

QTEST_GUILESS_MAIN(tst_PhoneAttacks)
#include "tst_phoneattacks.moc"
