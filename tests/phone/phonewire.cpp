// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/phonewire.h"

#include <QTcpSocket>
#include <QTest>

namespace ramplight::test {

namespace {

constexpr int patienceMs = 20'000;

} // namespace

QTcpSocket* dial(quint16 port, const QByteArray& bytes)
{
    auto* socket = new QTcpSocket;
    socket->connectToHost(QStringLiteral("127.0.0.1"), port);
    socket->write(bytes);
    return socket;
}

WireAnswer hearOut(QTcpSocket* socket)
{
    if (!QTest::qWaitFor([socket] { return socket->state() == QAbstractSocket::UnconnectedState; },
                         patienceMs))
        QTest::qFail("the server keeps the connection", __FILE__, __LINE__);
    const QByteArray all = socket->readAll();
    socket->deleteLater();
    const qsizetype end = all.indexOf("\r\n\r\n");
    WireAnswer answer{0, all.left(end), end < 0 ? QByteArray() : all.mid(end + 4)};
    if (all.startsWith("HTTP/1."))
        answer.status = all.mid(9, 3).toInt();
    return answer;
}

WireAnswer ask(quint16 port, const QByteArray& bytes)
{
    return hearOut(dial(port, bytes));
}

QByteArray get(const QString& path, const char* method)
{
    return QByteArray(method) + ' ' + path.toLatin1() + " HTTP/1.1\r\nHost: kiosk\r\n\r\n";
}

QByteArray post(const QString& path, const QByteArrayList& photos, const QByteArray& moreHeaders)
{
    QByteArray body;
    for (const QByteArray& photo : photos)
        body += "--edge\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"" +
                QByteArray(photo.isNull() ? "" : "x.jpg") +
                "\"\r\nContent-Type: application/octet-stream\r\n\r\n" + photo + "\r\n";
    body += "--edge--\r\n";
    return "POST " + path.toLatin1() +
           " HTTP/1.1\r\nHost: kiosk\r\nContent-Type: multipart/form-data; boundary=edge\r\n" +
           moreHeaders + "Content-Length: " + QByteArray::number(body.size()) + "\r\n\r\n" + body;
}

} // namespace ramplight::test
