// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/listbase.h"

#include <QtQmlIntegration>

namespace ramplight {

struct ChoiceRow
{
    QString choiceId;
    QString title;
    QString group; ///< heading it stands under; may be empty
    bool chosen = false;

    [[nodiscard]] QString key() const { return choiceId; }
    friend bool operator==(const ChoiceRow&, const ChoiceRow&) = default;
};

/// Something to pick from, one or several. Roles: choiceId, title, group, chosen. GUI thread.
class Choices : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")
    Q_PROPERTY(bool several READ several CONSTANT FINAL)
    /// Ids that are chosen, in the order of the list.
    Q_PROPERTY(QStringList chosen READ chosen NOTIFY chosenChanged FINAL)
    /// The one that is chosen, or empty.
    Q_PROPERTY(QString current READ current NOTIFY chosenChanged FINAL)
    Q_PROPERTY(QString currentTitle READ currentTitle NOTIFY chosenChanged FINAL)
    Q_PROPERTY(int currentRow READ currentRow NOTIFY chosenChanged FINAL) ///< -1: none

public:
    explicit Choices(bool several, QObject* parent = nullptr);

    [[nodiscard]] bool several() const { return m_several; }
    [[nodiscard]] QStringList chosen() const;
    [[nodiscard]] QString current() const;
    [[nodiscard]] QString currentTitle() const;
    [[nodiscard]] int currentRow() const;

    /// Several: turns it round. One: takes it instead of the other.
    Q_INVOKABLE void choose(const QString& choiceId);
    /// What there is no other than; nothing where there is more to pick from.
    Q_INVOKABLE void chooseOnly();
    Q_INVOKABLE void clear();
    Q_INVOKABLE void setChosen(const QStringList& ids);

    /// What there is to pick from; what was chosen stays chosen where it still exists.
    void offer(std::vector<ChoiceRow> rows);
    [[nodiscard]] const std::vector<ChoiceRow>& rows() const { return stored<ChoiceRow>(); }

signals:
    void chosenChanged();

private:
    bool m_several;
};

} // namespace ramplight
