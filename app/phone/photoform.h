// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "phone/phoneserver.h"

#include <atomic>
#include <vector>

struct MHD_Connection;
struct MHD_PostProcessor;

namespace ramplight {

/// Told when the last photo of a form has its answer. Outlives the server where a reply does.
class Bell
{
public:
    Bell();
    ~Bell();
    Bell(const Bell&) = delete;
    Bell& operator=(const Bell&) = delete;

    /// For poll(): readable after ring().
    [[nodiscard]] int descriptor() const { return m_descriptor; }
    void ring() const;
    void hush() const;

private:
    int m_descriptor;
};

/// What became of a form's photos, filled in from any thread.
class PhotoAnswers
{
public:
    explicit PhotoAnswers(std::shared_ptr<const Bell> bell);

    /// For the next photo.
    [[nodiscard]] std::function<void(const PhotoAnswer&)> ask();
    void add(const PhotoAnswer& answer) { ask()(answer); }
    [[nodiscard]] bool complete() const;
    /// Those that have no answer yet get this one.
    [[nodiscard]] std::vector<PhotoAnswer> all(const PhotoAnswer& otherwise) const;

private:
    struct Sheet
    {
        std::mutex gate;
        std::vector<std::optional<PhotoAnswer>> answers;
        std::size_t open = 0;
    };

    std::shared_ptr<Sheet> m_sheet = std::make_shared<Sheet>();
    std::shared_ptr<const Bell> m_bell;
};

/// The photos of one request, taken out of its multipart/form-data (RFC 7578) as it comes. Server's
/// thread.
class PhotoForm
{
public:
    using Deliver = std::function<void(const QByteArray& photo, const PhoneServer::Reply& reply)>;

    PhotoForm(MHD_Connection* connection, const PhoneLimits& limits,
              std::shared_ptr<std::atomic<qint64>> held, std::shared_ptr<const Bell> bell,
              Deliver deliver);
    ~PhotoForm();
    PhotoForm(const PhotoForm&) = delete;
    PhotoForm& operator=(const PhotoForm&) = delete;

    /// False: the request says that it is something else.
    [[nodiscard]] bool isForm() const { return m_reader != nullptr; }
    /// False: it is more than a form may be, or is none; the connection is to be closed.
    [[nodiscard]] bool take(const char* bytes, std::size_t size);
    /// All of it has come.
    void finish();
    [[nodiscard]] bool finished() const { return m_finished; }
    [[nodiscard]] const PhotoAnswers& answers() const { return m_answers; }

private:
    void part(bool begins, const QByteArray& fileName, QByteArrayView bytes);
    void otherField();
    void endPart();
    void giveBack();

    friend struct PhotoFormReader;

    PhoneLimits m_limits;
    std::shared_ptr<std::atomic<qint64>> m_held;
    Deliver m_deliver;
    PhotoAnswers m_answers;
    MHD_PostProcessor* m_reader;
    qint64 m_total = 0;
    int m_parts = 0;
    int m_piece = 0;   ///< of the form, counted from 1
    int m_emptyIn = 0; ///< the piece in which a part has just begun without bytes; 0: none has
    QByteArray m_fileName;
    bool m_inPart = false;
    bool m_named = false;
    QByteArray m_photo;
    QString m_fault; ///< of the photo that is coming
    bool m_finished = false;
};

} // namespace ramplight
