// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/operationview.h"
#include "phone/phoneserver.h"

#include <QtQmlIntegration>

#include <atomic>
#include <optional>

namespace ramplight {

/// Where phones reach this kiosk; kept with the kiosk, not in the ledger.
struct PhoneSettings
{
    QString address; ///< one of this machine's IPv4 addresses; empty: phones are not served
    quint16 port = 8190;

    friend bool operator==(const PhoneSettings&, const PhoneSettings&) = default;
};

struct PhonePhotoRow
{
    int number = 0;
    QString url;     ///< for an Image; empty until it is kept
    QString caption; ///< what may be wrong with it, or why it was not taken
    bool refused = false;

    [[nodiscard]] QString key() const { return QString::number(number); }
    friend bool operator==(const PhonePhotoRow&, const PhonePhotoRow&) = default;
};

/// Photos that came by the code on the sheet, in their order. Roles: number, url, caption, refused.
class PhonePhotos : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")

public:
    explicit PhonePhotos(QObject* parent = nullptr);
    void show(std::vector<PhonePhotoRow> rows) { replace(std::move(rows)); }
    [[nodiscard]] const std::vector<PhonePhotoRow>& rows() const { return stored<PhonePhotoRow>(); }
};

/// A phone as the camera: opens a code for one operation or finding, and puts what comes by it
/// there, in the name of who opened it. end() or ten minutes end a code. The lock of the screen
/// does not: its owner is on the way round the car; whoever signs in again and asks for the same
/// photos finds the same code. GUI thread; the server has its own.
class PhoneCamera : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    /// An address is set.
    Q_PROPERTY(bool configured READ configured NOTIFY changed FINAL)
    /// Why phones cannot reach the kiosk although an address is set, in words; empty.
    Q_PROPERTY(QString fault READ fault NOTIFY changed FINAL)
    /// A code is on the sheet and holds.
    Q_PROPERTY(bool open READ isOpen NOTIFY changed FINAL)
    /// "http://192.168.1.20:8190/..."; empty while there is none.
    Q_PROPERTY(QString address READ address NOTIFY changed FINAL)
    /// Begun ones count; 0: the code is over.
    Q_PROPERTY(int minutesLeft READ minutesLeft NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::PhonePhotos* photos READ photos CONSTANT FINAL)
    /// What came, in words: "2 photos have come, one was not taken".
    Q_PROPERTY(QString cameWords READ cameWords NOTIFY changed FINAL)

public:
    PhoneCamera(Desk& desk, OperationView& operation, CarView& car, Session& session,
                Ticker& ticker, QObject* parent = nullptr);
    ~PhoneCamera() override;

    [[nodiscard]] bool configured() const { return !m_settings.address.isEmpty(); }
    [[nodiscard]] QString fault() const { return m_fault; }
    [[nodiscard]] bool isOpen() const;
    [[nodiscard]] QString address() const;
    [[nodiscard]] int minutesLeft() const;
    [[nodiscard]] PhonePhotos* photos() { return &m_photos; }
    [[nodiscard]] QString cameWords() const;

    /// Serves phones there from now on, every code of before being over. Words: why not; empty.
    QString serve(const PhoneSettings& settings);
    [[nodiscard]] const PhoneSettings& settings() const { return m_settings; }

    /// Phones are not served, until they are again where they were.
    void pause();
    void goOn();

    /// For the operation that is open. moment: before, during, after; prompt: what it is to show.
    Q_INVOKABLE void inviteForWork(const QString& moment, const QString& prompt);
    /// For a finding of the car that is open; 0: of the car itself.
    Q_INVOKABLE void inviteForFinding(int findingId, const QString& prompt);
    /// The sheet is closed: its code ends.
    Q_INVOKABLE void end();
    /// The screen of the sheet goes: as end(), unless it goes because the kiosk was locked.
    Q_INVOKABLE void leave();

signals:
    void changed();

private:
    struct Code
    {
        PhoneInvitation invitation;
        PersonId actor;
        PhotoTarget target;
        std::vector<PhonePhotoRow> photos;
    };

    void invite(const PhotoTarget& target, const PhoneErrand& errand);
    void show(const Code& code);
    void take(InvitationId id, const QByteArray& bytes, const PhoneServer::Reply& reply);
    void attach(InvitationId id, int number, const PhotoTaken& taken,
                const PhoneServer::Reply& reply);
    struct Attaching
    {
        PersonId actor;
        PhotoTarget target;
        car::AttachPhoto command;
    };
    void attachAs(InvitationId id, int number, const PhotoTaken& taken, const Attaching& attaching,
                  const PhoneServer::Reply& reply);
    void tell(InvitationId id, const PhonePhotoRow& row);
    [[nodiscard]] Code* find(InvitationId id);
    [[nodiscard]] const Code* find(InvitationId id) const;
    [[nodiscard]] QString carWords() const;
    void second();

    Desk& m_desk;
    OperationView& m_operation;
    CarView& m_car;
    Session& m_session;
    Ticker& m_ticker;
    PhoneSettings m_settings;
    std::optional<PhoneSettings> m_paused; ///< to be gone on with
    QString m_fault;
    PhonePhotos m_photos;
    std::vector<Code> m_codes;
    InvitationId m_shown;
    int m_lastPhoto = 0;
    int m_minutesTold = 0;
    std::atomic<qint64> m_nowMs; ///< the ticker's, for the server's thread
    PhoneServer m_server;        ///< the last: it stops before anything else goes
};

} // namespace ramplight
