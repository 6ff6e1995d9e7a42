// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/choices.h"

#include <QObject>
#include <QtQmlIntegration>

#include <functional>

namespace ramplight {

/// Makes the demo workshop in the empty database. Progress is called on any thread with 0 to 1.
using DemoMaker =
    std::function<QFuture<tl::expected<void, QString>>(std::function<void(double)> progress)>;

/// First start: this workshop, or the demo one. Answers through `ask` (what: "workshop" or "demo").
/// GUI thread.
class SetupView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(QString siteName READ siteName WRITE setSiteName NOTIFY changed FINAL)
    Q_PROPERTY(QString timeZone READ timeZone WRITE setTimeZone NOTIFY changed FINAL) ///< IANA
    Q_PROPERTY(bool driveOnRight READ driveOnRight WRITE setDriveOnRight NOTIFY changed FINAL)
    /// "left side" and "right side" instead of near and off side.
    Q_PROPERTY(bool leftRight READ leftRight WRITE setLeftRight NOTIFY changed FINAL)
    Q_PROPERTY(QString personName READ personName WRITE setPersonName NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Choices* skills READ skills CONSTANT FINAL)
    Q_PROPERTY(ramplight::NewPin* newPin READ newPin CONSTANT FINAL)
    /// Work that the first person could not legally finish alone, each in words.
    Q_PROPERTY(QStringList warnings READ warnings NOTIFY changed FINAL)
    Q_PROPERTY(bool complete READ isComplete NOTIFY changed FINAL)
    Q_PROPERTY(bool hasDemo READ hasDemo CONSTANT FINAL)
    Q_PROPERTY(double progress READ progress NOTIFY progressChanged FINAL) ///< of the demo, 0 to 1

public:
    SetupView(Desk& desk, SiteBook& book, DemoMaker demo, QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] QString siteName() const { return m_siteName; }
    void setSiteName(const QString& name);
    [[nodiscard]] QString timeZone() const { return m_timeZone; }
    void setTimeZone(const QString& zone);
    [[nodiscard]] bool driveOnRight() const { return m_driveOnRight; }
    void setDriveOnRight(bool right);
    [[nodiscard]] bool leftRight() const { return m_leftRight; }
    void setLeftRight(bool leftRight);
    [[nodiscard]] QString personName() const { return m_personName; }
    void setPersonName(const QString& name);
    [[nodiscard]] Choices* skills() { return &m_skills; }
    [[nodiscard]] NewPin* newPin() { return &m_newPin; }
    [[nodiscard]] QStringList warnings() const;
    [[nodiscard]] bool isComplete() const;
    [[nodiscard]] bool hasDemo() const { return static_cast<bool>(m_demo); }
    [[nodiscard]] double progress() const { return m_progress; }

    Q_INVOKABLE void makeWorkshop();
    Q_INVOKABLE void makeDemo();

signals:
    void changed();
    void progressChanged();

private:
    [[nodiscard]] site::SetUp command() const;
    void write(const SiteRequest& request);

    Desk& m_desk;
    SiteBook& m_book;
    DemoMaker m_demo;
    Ask m_ask;
    QString m_siteName;
    QString m_timeZone;
    bool m_driveOnRight = false;
    bool m_leftRight = false;
    QString m_personName;
    Choices m_skills;
    NewPin m_newPin;
    double m_progress = 0;
    CommandId m_command; // the same until it is carried out
};

} // namespace ramplight
