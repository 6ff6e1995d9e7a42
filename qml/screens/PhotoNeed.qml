// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls

// A photo that an operation asks for: the place for it, or the photo.
//   required: roles of PhotoNeedsModel;  signal tapped()
PhotoTile {
    id: root

    required property string moment
    required property int rank
    required property string momentWords
    required property string title
    required property bool present
    required property string url
    required property string whenWords
    required property string goneWords

    height: width * 0.8
    source: present ? url : ""
    gone: goneWords
    required: true
    caption: present ? qsTr("%1 %2").arg(momentWords).arg(whenWords) : ""
    prompt: qsTr("%1: %2").arg(momentWords).arg(title)
}
