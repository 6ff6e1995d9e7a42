// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// What a telephone sends: the bytes of a form, in pieces. The first byte chooses the header that
// says what they are, the second how they are cut; with the third even, the rest is the form as it
// comes, otherwise the fields of one that is put together here.
#include "fuzzing.h"

#include "phone/photoform.h"

#include <microhttpd.h>

#include <algorithm>
#include <array>
#include <functional>
#include <optional>
#include <random>
#include <string>
#include <sys/socket.h>
#include <unistd.h>

using namespace ramplight;
using fuzz::must;

namespace {

constexpr PhoneLimits limits{
    .photoBytes = 300, .formBytes = 6'000, .heldBytes = 700, .photosPerForm = 4};

const std::array<const char*, 8> kinds{
    "multipart/form-data; boundary=line",
    "multipart/form-data; boundary=\"a line\"",
    "multipart/form-data; charset=utf-8; boundary=----WebKitFormBoundary7MA4YWxkTrZu0gW",
    "multipart/form-data",
    "multipart/form-data; boundary=",
    "application/x-www-form-urlencoded",
    "Multipart/Form-Data; boundary=xy", // the library knows no "Boundary" and none of one character
    "text/plain",
};

/// Connections whose headers have come, one for each kind: a form needs nothing else of them.
class Lines
{
public:
    Lines()
    {
        m_daemon = MHD_start_daemon(MHD_USE_NO_LISTEN_SOCKET | MHD_ALLOW_SUSPEND_RESUME, 0, nullptr,
                                    nullptr, &Lines::onRequest, this, MHD_OPTION_END);
        must(m_daemon != nullptr, "a server can be made");
        for (const char* kind : kinds)
            m_connections[m_count++] = dial(kind);
    }
    MHD_Connection* at(std::size_t kind) const { return m_connections.at(kind); }

private:
    static MHD_Result onRequest(void* self, MHD_Connection* connection, const char*, const char*,
                                const char*, const char*, std::size_t*, void**)
    {
        static_cast<Lines*>(self)->m_asked = connection;
        MHD_suspend_connection(connection);
        return MHD_YES;
    }

    MHD_Connection* dial(const char* kind)
    {
        std::array<int, 2> ends{};
        must(::socketpair(AF_UNIX, SOCK_STREAM | SOCK_NONBLOCK, 0, ends.data()) == 0, "a socket");
        const sockaddr nobody{.sa_family = AF_UNIX, .sa_data = {}};
        must(MHD_add_connection(m_daemon, ends[1], &nobody, sizeof nobody) == MHD_YES, "a line");
        const std::string head = std::string("POST / HTTP/1.1\r\nHost: here\r\nContent-Type: ") +
                                 kind + "\r\nContent-Length: 6000\r\n\r\n";
        must(::write(ends[0], head.data(), head.size()) == static_cast<ssize_t>(head.size()),
             "the headers go");
        m_asked = nullptr;
        for (int i = 0; i < 100 && m_asked == nullptr; ++i)
            MHD_run(m_daemon);
        must(m_asked != nullptr, "the headers come");
        return m_asked;
    }

    MHD_Daemon* m_daemon;
    MHD_Connection* m_asked = nullptr;
    std::array<MHD_Connection*, kinds.size()> m_connections{};
    std::size_t m_count = 0;
};

/// What came of a form.
struct Taken
{
    bool isForm = false;
    bool whole = false; ///< nothing of it was refused
    std::vector<QByteArray> photos;
    std::vector<PhotoAnswer> answers;
};

/// piece: how many bytes come at a time, when so many have come.
Taken take(MHD_Connection* connection, const QByteArray& bytes,
           const std::function<qsizetype(qsizetype)>& piece)
{
    const auto held = std::make_shared<std::atomic<qint64>>(0);
    Taken taken;
    std::vector<PhoneServer::Reply> replies;
    {
        PhotoForm form(connection, limits, held, std::make_shared<const Bell>(),
                       [&](const QByteArray& photo, const PhoneServer::Reply& reply) {
                           must(photo.size() <= limits.photoBytes, "no photo is too large");
                           taken.photos.push_back(photo);
                           replies.push_back(reply);
                       });
        taken.isForm = form.isForm();
        taken.whole = taken.isForm;
        for (qsizetype at = 0; at < bytes.size() && taken.whole;) {
            const qsizetype size = std::clamp<qsizetype>(piece(at), 1, bytes.size() - at);
            taken.whole = form.take(bytes.constData() + at, static_cast<std::size_t>(size));
            must(*held >= 0 && *held <= limits.heldBytes, "no more is held than may be");
            at += size;
        }
        if (taken.whole) {
            form.finish();
            must(form.finished(), "a form ends");
            must(form.answers().complete() == replies.empty(), "each photo waits for its answer");
            for (std::size_t i = 0; i < replies.size(); ++i)
                replies[i](QString::number(i));
            must(form.answers().complete(), "each has its answer");
            taken.answers = form.answers().all(tl::unexpected(QStringLiteral("none")));
        }
    }
    must(static_cast<int>(taken.photos.size()) <= limits.photosPerForm, "no more than may be");
    must(taken.answers.size() <= static_cast<std::size_t>(limits.photosPerForm) + 1,
         "no more answers than photos, and one that says so");
    replies.clear();
    must(*held == 0, "what was held is given back");
    return taken;
}

/// A form as a browser sends it, made of fields of at most 255 bytes: a byte for what a field is,
/// one for its length, the field. photos: what must come of it, in order.
QByteArray putTogether(const QByteArray& fields, const QByteArray& boundary,
                       std::vector<QByteArray>& photos)
{
    QByteArray form;
    for (qsizetype at = 0; at + 2 <= fields.size();) {
        const auto what = static_cast<std::uint8_t>(fields[at]);
        const auto length = static_cast<std::uint8_t>(fields[at + 1]);
        const QByteArray field = fields.mid(at + 2, length);
        at += 2 + field.size();
        // A browser takes a boundary that is in no field. A photo without bytes and the next one of
        // its name may come as one, where the form is cut between them.
        if (field.isEmpty() || field.contains(boundary.left(4)))
            continue;
        form += "--" + boundary + "\r\nContent-Disposition: form-data; name=\"";
        switch (what % 4) {
        case 0:
        case 1:
            form += "photo\"; filename=\"p.jpg\"\r\nContent-Type: image/jpeg\r\n\r\n";
            photos.push_back(field);
            break;
        case 2: // nothing was chosen
            form += "photo\"; filename=\"\"\r\nContent-Type: application/octet-stream\r\n\r\n\r\n";
            continue;
        default:
            form += "note\"\r\n\r\n";
            break;
        }
        form += field + "\r\n";
    }
    return form + "--" + boundary + "--\r\n";
}

/// ends: the form comes to its end. Otherwise so does its last photo, somewhere.
void compare(const Taken& whole, const Taken& cut, bool ends)
{
    must(whole.isForm == cut.isForm, "it is a form or none");
    if (!whole.whole || !cut.whole)
        return;
    if (ends) {
        must(whole.photos == cut.photos, "however it is cut, the same photos come");
        must(whole.answers == cut.answers, "however it is cut, the answers are the same");
    }
    if (std::ranges::any_of(whole.photos, &QByteArray::isEmpty))
        return;
    for (std::size_t i = 0; i + 1 < std::min(whole.photos.size(), cut.photos.size()); ++i)
        must(whole.photos[i] == cut.photos[i], "however it is cut, the same photos come first");
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    static const Lines lines;
    if (size < 3)
        return 0;
    const std::size_t kind = data[0] % kinds.size();
    const std::uint8_t cuts = data[1];
    const QByteArray rest(reinterpret_cast<const char*>(data) + 3,
                          static_cast<qsizetype>(size) - 3);
    QByteArray form = rest;
    std::optional<std::vector<QByteArray>> photos;
    if (data[2] % 2 == 1 && (kind == 0 || kind == 2 || kind == 6)) {
        static const std::array<QByteArray, 3> boundaries{
            "line", "----WebKitFormBoundary7MA4YWxkTrZu0gW", "xy"};
        photos.emplace();
        form = putTogether(rest, boundaries.at(kind / 2 == 3 ? 2 : kind / 2), *photos);
    }
    const Taken whole = take(lines.at(kind), form, [&](qsizetype) { return form.size(); });
    compare(whole, take(lines.at(kind), form, [](qsizetype) { return 1; }), photos.has_value());
    std::minstd_rand random(cuts + 1U);
    const auto piece = [&](qsizetype) {
        const std::uint_fast32_t more = random() % (1U + cuts);
        return 1 + static_cast<qsizetype>(more);
    };
    compare(whole, take(lines.at(kind), form, piece), photos.has_value());

    if (!photos || form.size() > limits.formBytes)
        return 0;
    must(whole.whole, "a form as a browser sends it is taken");
    qint64 all = 0;
    for (const QByteArray& photo : *photos)
        all += photo.size();
    // What waits for its answer counts, so that a large one is refused for others' sake.
    if (all > limits.heldBytes)
        return 0;
    photos->resize(std::min(photos->size(), static_cast<std::size_t>(limits.photosPerForm)));
    must(whole.photos == *photos, "what was sent is what came");
    return 0;
}
