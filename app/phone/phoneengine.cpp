// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/phoneengine.h"

#include <arpa/inet.h>
#include <poll.h>
#include <sys/socket.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>

namespace ramplight {

namespace {

constexpr int idleMs = 1'000;
constexpr const char* html = "text/html; charset=utf-8";
constexpr const char* plain = "text/plain; charset=utf-8";

bool is(const char* method, const char* wanted)
{
    return std::strcmp(method, wanted) == 0;
}

/// What the request says about its own length; nothing when it does not.
std::optional<qint64> announcedBytes(MHD_Connection* connection)
{
    const char* text =
        MHD_lookup_connection_value(connection, MHD_HEADER_KIND, MHD_HTTP_HEADER_CONTENT_LENGTH);
    if (text == nullptr)
        return {};
    bool isNumber = false;
    const qint64 bytes = QByteArray(text).toLongLong(&isNumber);
    return isNumber ? std::optional(bytes) : std::nullopt;
}

} // namespace

PhoneServer::Engine::Engine(Invitations& invitations, Receiver receiver, const PhoneLimits& limits)
    : m_invitations(invitations)
    , m_receiver(std::move(receiver))
    , m_limits(limits)
{
}

PhoneServer::Engine::~Engine()
{
    m_stopping = true;
    m_bell->ring();
    if (m_thread.joinable())
        m_thread.join();
    if (m_daemon != nullptr)
        MHD_stop_daemon(m_daemon);
}

QString PhoneServer::Engine::start(const sockaddr_in& where)
{
    errno = 0;
    m_daemon = MHD_start_daemon(
        MHD_USE_EPOLL | MHD_ALLOW_SUSPEND_RESUME, 0, nullptr, nullptr, &Engine::onRequest, this,
        MHD_OPTION_SOCK_ADDR, reinterpret_cast<const sockaddr*>(&where),
        MHD_OPTION_LISTENING_ADDRESS_REUSE, 1U, MHD_OPTION_CONNECTION_LIMIT,
        static_cast<unsigned>(m_limits.connections), MHD_OPTION_PER_IP_CONNECTION_LIMIT,
        static_cast<unsigned>(m_limits.connectionsPerAddress), MHD_OPTION_CONNECTION_TIMEOUT,
        static_cast<unsigned>(m_limits.silenceSeconds), MHD_OPTION_CONNECTION_MEMORY_LIMIT,
        static_cast<std::size_t>(m_limits.headBytes), MHD_OPTION_STRICT_FOR_CLIENT, 1,
        MHD_OPTION_UNESCAPE_CALLBACK, &Engine::onEscapes, this, MHD_OPTION_NOTIFY_COMPLETED,
        &Engine::onCompleted, this, MHD_OPTION_NOTIFY_CONNECTION, &Engine::onConnection, this,
        MHD_OPTION_END);
    if (m_daemon == nullptr)
        return errno != 0 ? qt_error_string(errno) : qt_error_string(EADDRINUSE);
    const auto* poll = MHD_get_daemon_info(m_daemon, MHD_DAEMON_INFO_EPOLL_FD);
    const auto* port = MHD_get_daemon_info(m_daemon, MHD_DAEMON_INFO_BIND_PORT);
    m_poll = poll != nullptr ? poll->listen_fd : -1;
    m_port = port != nullptr ? port->port : ntohs(where.sin_port);
    std::array<char, INET_ADDRSTRLEN> text{};
    inet_ntop(AF_INET, &where.sin_addr, text.data(), text.size());
    m_address = QString::fromLatin1(text.data());
    m_thread = std::thread([this] { run(); });
    return {};
}

void PhoneServer::Engine::run()
{
    pthread_setname_np(pthread_self(), "phones");
    while (!m_stopping) {
        // First, because nothing else wakes up who is resumed.
        resumeAnswered(false);
        MHD_run(m_daemon);
        int wait = cutLate();
        MHD_UNSIGNED_LONG_LONG wanted = 0;
        if (MHD_get_timeout(m_daemon, &wanted) == MHD_YES &&
            wanted < static_cast<MHD_UNSIGNED_LONG_LONG>(wait))
            wait = static_cast<int>(wanted);
        std::array<pollfd, 2> sources{pollfd{m_poll, POLLIN, 0},
                                      pollfd{m_bell->descriptor(), POLLIN, 0}};
        poll(sources.data(), sources.size(), wait);
        if (sources[1].revents != 0)
            m_bell->hush();
    }
    // Nothing may be suspended when the daemon stops.
    resumeAnswered(true);
    MHD_run(m_daemon);
    MHD_run(m_daemon); // the first wakes them, the second answers
}

void PhoneServer::Engine::resumeAnswered(bool all)
{
    std::erase_if(m_waiting, [all](Request* request) {
        if (!all && !request->form->answers().complete())
            return false;
        MHD_resume_connection(std::exchange(request->waiting, nullptr));
        return true;
    });
}

int PhoneServer::Engine::cutLate()
{
    const auto now = Clock::now();
    auto next = now + std::chrono::milliseconds(idleMs);
    for (auto& [connection, line] : m_lines) {
        if (line.waits)
            continue;
        const auto end =
            line.since + std::chrono::milliseconds(line.asked ? m_limits.wholeMs : m_limits.headMs);
        if (end <= now)
            shutdown(line.socket, SHUT_RDWR); // libmicrohttpd finds it closed, and tidies up
        else
            next = std::min(next, end);
    }
    return 1 + static_cast<int>(
                   std::chrono::duration_cast<std::chrono::milliseconds>(next - now).count());
}

void PhoneServer::Engine::onConnection(void* self, MHD_Connection* connection, void**,
                                       MHD_ConnectionNotificationCode what)
{
    auto& lines = static_cast<Engine*>(self)->m_lines;
    if (what == MHD_CONNECTION_NOTIFY_CLOSED) {
        lines.erase(connection);
        return;
    }
    const auto* info = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    lines[connection] = {info != nullptr ? info->connect_fd : -1, Clock::now()};
}

std::size_t PhoneServer::Engine::onEscapes(void*, MHD_Connection*, char* text)
{
    // A token has nothing to unescape, and what is no token stays none.
    return std::strlen(text);
}

void PhoneServer::Engine::onCompleted(void*, MHD_Connection*, void** request,
                                      MHD_RequestTerminationCode)
{
    delete static_cast<Request*>(std::exchange(*request, nullptr));
}

MHD_Result PhoneServer::Engine::onRequest(void* self, MHD_Connection* connection, const char* path,
                                          const char* method, const char*, const char* data,
                                          std::size_t* size, void** request)
{
    auto* engine = static_cast<Engine*>(self);
    if (*request == nullptr)
        return engine->begin(connection, path, method, request);
    return engine->goOn(connection, *static_cast<Request*>(*request), data, size);
}

MHD_Result PhoneServer::Engine::begin(MHD_Connection* connection, const char* path,
                                      const char* method, void** request)
{
    if (const auto line = m_lines.find(connection); line != m_lines.end())
        line->second.asked = true;
    const std::optional<PhoneInvitation> invitation = m_invitations.find(path);
    if (!invitation)
        return note(connection, MHD_HTTP_NOT_FOUND, phonewords::nothingHereTitle(),
                    phonewords::nothingHere());
    if (is(method, MHD_HTTP_METHOD_GET) || is(method, MHD_HTTP_METHOD_HEAD))
        return respond(connection, MHD_HTTP_OK,
                       phonePage(invitation->errand, {}, m_limits.photoBytes), html);
    if (!is(method, MHD_HTTP_METHOD_POST))
        return note(connection, MHD_HTTP_METHOD_NOT_ALLOWED, phonewords::nothingTakenTitle(),
                    phonewords::noForm());
    // What says beforehand that it is too much is not even read.
    if (announcedBytes(connection).value_or(0) > m_limits.formBytes)
        return note(connection, MHD_HTTP_CONTENT_TOO_LARGE, phonewords::nothingTakenTitle(),
                    phonewords::tooLarge());
    auto made = std::make_unique<Request>();
    made->invitation = *invitation;
    made->byScript =
        MHD_lookup_connection_value(connection, MHD_HEADER_KIND, "X-Ramplight") != nullptr;
    made->form = std::make_unique<PhotoForm>(
        connection, m_limits, m_held, m_bell,
        [this, id = invitation->id](const QByteArray& photo, const Reply& reply) {
            // It may have ended, or filled up, since its headers came.
            if (m_invitations.takesOneMore(id))
                m_receiver(id, photo, reply);
            else
                reply(tl::unexpected(phonewords::ended()));
        });
    if (!made->form->isForm())
        return note(connection, MHD_HTTP_UNSUPPORTED_MEDIA_TYPE, phonewords::nothingTakenTitle(),
                    phonewords::noForm());
    *request = made.release();
    return MHD_YES;
}

MHD_Result PhoneServer::Engine::goOn(MHD_Connection* connection, Request& request, const char* data,
                                     std::size_t* size)
{
    if (*size > 0) {
        const bool taken = request.form->take(data, *size);
        *size = 0;
        return taken ? MHD_YES : MHD_NO;
    }
    if (!request.form->finished())
        request.form->finish();
    const auto line = m_lines.find(connection);
    if (!request.form->answers().complete() && !m_stopping) {
        if (line != m_lines.end())
            line->second.waits = true;
        request.waiting = connection;
        m_waiting.push_back(&request);
        MHD_suspend_connection(connection);
        return MHD_YES;
    }
    if (line != m_lines.end())
        line->second = {line->second.socket, Clock::now(), true, false}; // time to read the answer
    return answer(connection, request);
}

MHD_Result PhoneServer::Engine::answer(MHD_Connection* connection, Request& request)
{
    const auto answers = request.form->answers().all(tl::unexpected(phonewords::closing()));
    if (!request.byScript) {
        return respond(connection, MHD_HTTP_OK,
                       phonePage(request.invitation.errand, answers, m_limits.photoBytes), html);
    }
    const PhotoAnswer first =
        answers.empty() ? PhotoAnswer(tl::unexpected(phonewords::noForm())) : answers.front();
    return respond(connection, first ? MHD_HTTP_OK : MHD_HTTP_UNPROCESSABLE_CONTENT,
                   phoneWords(first), plain);
}

MHD_Result PhoneServer::Engine::respond(MHD_Connection* connection, unsigned status,
                                        const QByteArray& body, const char* kind)
{
    MHD_Response* response =
        MHD_create_response_from_buffer(static_cast<std::size_t>(body.size()),
                                        const_cast<char*>(body.constData()), MHD_RESPMEM_MUST_COPY);
    if (response == nullptr)
        return MHD_NO;
    const auto header = [response](const char* name, const char* value) {
        MHD_add_response_header(response, name, value);
    };
    header(MHD_HTTP_HEADER_CONTENT_TYPE, kind);
    header(MHD_HTTP_HEADER_CACHE_CONTROL, "no-store");
    header(MHD_HTTP_HEADER_CONTENT_SECURITY_POLICY, phonePolicy().constData());
    header("X-Content-Type-Options", "nosniff");
    // The address is the key: it goes nowhere else.
    header("Referrer-Policy", "no-referrer");
    header("Cross-Origin-Resource-Policy", "same-origin");
    header(MHD_HTTP_HEADER_CONNECTION, "close");
    if (status == MHD_HTTP_METHOD_NOT_ALLOWED)
        header(MHD_HTTP_HEADER_ALLOW, "GET, HEAD, POST");
    const MHD_Result queued = MHD_queue_response(connection, status, response);
    MHD_destroy_response(response);
    return queued;
}

MHD_Result PhoneServer::Engine::note(MHD_Connection* connection, unsigned status,
                                     const QString& title, const QString& words)
{
    return respond(connection, status, phoneNote(title, words), html);
}

} // namespace ramplight
