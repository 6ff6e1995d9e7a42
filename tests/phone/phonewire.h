// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QByteArrayList>

class QTcpSocket;

// A phone as the network sees it: bytes into a socket, bytes out of it.
namespace ramplight::test {

/// What came back. status is 0 when the server closed without a word.
struct WireAnswer
{
    int status = 0;
    QByteArray head;
    QByteArray body;
};

/// Connects on loopback and sends; waits for nothing. The socket is the caller's.
[[nodiscard]] QTcpSocket* dial(quint16 port, const QByteArray& bytes);
/// Runs the event loop until the server has closed; fails the test when it does not.
[[nodiscard]] WireAnswer hearOut(QTcpSocket* socket);
[[nodiscard]] WireAnswer ask(quint16 port, const QByteArray& bytes);

[[nodiscard]] QByteArray get(const QString& path, const char* method = "GET");
/// A form as a browser sends it without a script; a null part is a field with nothing chosen.
[[nodiscard]] QByteArray post(const QString& path, const QByteArrayList& photos,
                              const QByteArray& moreHeaders = {});

} // namespace ramplight::test
