// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/spokenround.h"
#include "kiosk/spokenfiles.h"

#include <QAbstractListModel>
#include <QtQmlIntegration>

namespace ramplight {

/// The words of a walk-round as rows of a few lines, with what was understood marked in them.
/// Roles: momentWords ("07:05", empty without times), markup (rich text; the classes k understood,
/// o open draft, d decided, x dropped, c the chosen one are the screen's to style; a draft is a
/// link whose target is its number). Markup is made when a row is shown, so a day of speech costs
/// nothing. GUI thread.
class SpokenWords : public QAbstractListModel
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the review")
    Q_PROPERTY(int count READ count NOTIFY countChanged FINAL)

public:
    explicit SpokenWords(QObject* parent = nullptr);

    void setText(SpokenText text);
    /// What became of each draft, and the one that is looked at; -1: none.
    void setDecisions(const std::vector<DraftDecision>& decisions, int chosen);
    [[nodiscard]] int count() const { return static_cast<int>(m_rows.size()); }
    /// In which a draft's quote begins; -1: in none.
    [[nodiscard]] int rowOf(int draft) const;
    /// Of the drafts whose quotes touch a row the one after this, round and round; -1: none.
    [[nodiscard]] int draftAfter(int draft, int row) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QHash<int, QByteArray> roleNames() const override;

signals:
    void countChanged();

private:
    enum Role { MomentWords = Qt::UserRole + 1, Markup };
    struct Row
    {
        int first = 0;
        int last = 0; ///< behind its end
        int seconds = -1;
    };

    void cut();
    [[nodiscard]] QString markupOf(const Row& row) const;
    [[nodiscard]] int draftAt(int position) const;
    [[nodiscard]] QString classOf(int draft) const;

    SpokenText m_text;
    std::vector<Row> m_rows;
    std::vector<DraftEnd> m_ends;
    int m_chosen = -1;
};

} // namespace ramplight
