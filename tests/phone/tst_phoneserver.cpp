// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/phonescene.h"

#include <QCryptographicHash>
#include <QSet>
#include <QTcpSocket>

using namespace ramplight;
using namespace ramplight::test;

/// The page for phones over real sockets: what it shows and takes, and when it is over.
class tst_PhoneServer : public QObject
{
    Q_OBJECT

private slots:
    void page_saysWhatItIsFor_andLoadsNothing();
    void tokens_areLongAndNeverTheSame();
    void photos_arriveByteForByte_data();
    void photos_arriveByteForByte();
    void photoBehindItsHeaders_isOnePhoto();
    void script_isAnsweredInWords();
    void code_endsAfterTenMinutes();
    void closedSheet_endsItsCodeOnly();
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

void tst_PhoneServer::photoBehindItsHeaders_isOnePhoto()
{
    Scene scene;
    const PhoneInvitation invitation = scene.invite();
    const QByteArray request = post(invitation.path, {photo()}, byScript);
    const qsizetype bytes = request.indexOf("octet-stream\r\n\r\n") + 16;
    QTcpSocket* socket = dial(scene.server.port(), {});
    QTRY_COMPARE(socket->state(), QAbstractSocket::ConnectedState);
    socket->write(request.left(bytes));
    socket->flush();
    // Not a wait for something: the pieces come one after the other.
    QTest::qWait(200);
    socket->write(request.mid(bytes));
    const WireAnswer answer = hearOut(socket);
    QCOMPARE(answer.status, 200);
    QCOMPARE(answer.body, QByteArray("Taken. It is at the kiosk."));
    QCOMPARE(scene.photos, QByteArrayList{photo()});
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
