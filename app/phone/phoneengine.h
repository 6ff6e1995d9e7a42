// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "phone/photoform.h"

#include <microhttpd.h>
#include <netinet/in.h>

#include <atomic>
#include <chrono>
#include <thread>

namespace ramplight {

/// The server's thread with everything on it: libmicrohttpd runs inside our own loop, because its
/// time limit starts anew with every byte, and a request that trickles in would never end.
class PhoneServer::Engine
{
public:
    Engine(Invitations& invitations, Receiver receiver, const PhoneLimits& limits);
    /// Closes every connection; who waits for an answer is told that the kiosk closes.
    ~Engine();
    Engine(const Engine&) = delete;
    Engine& operator=(const Engine&) = delete;

    /// Why not, in the system's words; empty when it serves.
    [[nodiscard]] QString start(const sockaddr_in& where);
    [[nodiscard]] const QString& address() const { return m_address; }
    [[nodiscard]] quint16 port() const { return m_port; }

private:
    using Clock = std::chrono::steady_clock;

    struct Request
    {
        PhoneInvitation invitation;
        bool byScript = false; ///< one photo, and the answer is words instead of a page
        std::unique_ptr<PhotoForm> form;
        MHD_Connection* waiting = nullptr; ///< suspended until the answers are there
    };
    struct Line
    {
        int socket = -1;
        Clock::time_point since;
        bool asked = false; ///< its headers are complete
        bool waits = false; ///< for us
    };

    // libmicrohttpd's callbacks
    static MHD_Result onRequest(void* self, MHD_Connection* connection, const char* path,
                                const char* method, const char* version, const char* data,
                                std::size_t* size, void** request);
    static std::size_t onEscapes(void* self, MHD_Connection* connection, char* text);
    static void onCompleted(void* self, MHD_Connection* connection, void** request,
                            MHD_RequestTerminationCode why);
    static void onConnection(void* self, MHD_Connection* connection, void** socket,
                             MHD_ConnectionNotificationCode what);

    MHD_Result begin(MHD_Connection* connection, const char* path, const char* method,
                     void** request);
    MHD_Result goOn(MHD_Connection* connection, Request& request, const char* data,
                    std::size_t* size);
    MHD_Result answer(MHD_Connection* connection, Request& request);
    static MHD_Result respond(MHD_Connection* connection, unsigned status, const QByteArray& body,
                              const char* kind);
    static MHD_Result note(MHD_Connection* connection, unsigned status, const QString& title,
                           const QString& words);

    void run();
    void resumeAnswered(bool all);
    /// Milliseconds until the next time limit.
    [[nodiscard]] int cutLate();

    Invitations& m_invitations;
    Receiver m_receiver;
    PhoneLimits m_limits;
    std::shared_ptr<const Bell> m_bell = std::make_shared<Bell>();
    std::shared_ptr<std::atomic<qint64>> m_held = std::make_shared<std::atomic<qint64>>(0);
    MHD_Daemon* m_daemon = nullptr;
    int m_poll = -1;
    QString m_address;
    quint16 m_port = 0;
    std::map<MHD_Connection*, Line> m_lines;
    std::vector<Request*> m_waiting;
    std::atomic<bool> m_stopping = false;
    std::thread m_thread;
};

} // namespace ramplight
